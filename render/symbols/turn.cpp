#include "render/symbols/turn.hpp"

#include <cmath>

namespace ferrule::symbols {

double clean(double value) { return std::round(value * 1e4) / 1e4 + 0.0; }

Spot Turn::operator()(Spot at) const {
  if (flip) at.x = -at.x;
  for (int i = 0; i < quarters; ++i) at = {-at.y, at.x};
  return {clean(at.x + x), clean(at.y + y)};
}

double Turn::angle(double degrees) const { return clean((flip ? 180 - degrees : degrees) + 90 * quarters); }

Side Turn::side(Side of) const {
  constexpr Side clockwise[] = {Side::above, Side::right, Side::below, Side::left};
  if (flip && of == Side::left) of = Side::right;
  else if (flip && of == Side::right) of = Side::left;
  int index = 0;
  while (clockwise[index] != of) ++index;
  return clockwise[(index + quarters) % 4];
}

Turn Turn::then(const Turn& after) const {
  const Spot at = after({x, y});
  const int turned = after.quarters + (after.flip ? 4 - quarters : quarters);
  return {at.x, at.y, turned % 4, flip != after.flip};
}

}  // namespace ferrule::symbols
