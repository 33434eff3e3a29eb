// Flip, quarter turn, shift: the only ways a stroke is moved. Lengths in modules, x right, y DOWN, angles clockwise.
#pragma once

#include "compiler/model/definition.hpp"

namespace ferrule::symbols {

struct Spot {
  double x = 0, y = 0;
  friend bool operator==(const Spot&, const Spot&) = default;
};

// Flips first (x to -x), then turns clockwise by quarters, then shifts.
struct Turn {
  double x = 0, y = 0;
  int quarters = 0;
  bool flip = false;

  Spot operator()(Spot at) const;
  double angle(double degrees) const;
  Side side(Side of) const;
  // This turn first, `after` on top of it.
  Turn then(const Turn& after) const;
};

// Four decimals, and never -0: turned strokes compare equal to those that were written so.
double clean(double value);

}  // namespace ferrule::symbols
