// The sheets of a set that show the circuit: divided, drawn, not yet numbered.
#pragma once

#include "render/composing.hpp"
#include "render/set/division.hpp"
#include "render/set/names.hpp"

namespace ferrule::set {

struct CircuitSheet {
  Piece piece;
  Composed composed;
  SheetName name;
};

struct CircuitSheets {
  Division division;
  std::vector<CircuitSheet> sheets;    // by Division::sheets
};

// On the smallest of the formats, from A3 on, that holds every unit whole; else on the largest, with units parted. What can't be
// parted and does not fit stands on a larger sheet: why is added to `notes`.
CircuitSheets circuit_sheets(const Making& making, const Sketch& sketch, std::span<const sheet::Format> formats, std::vector<std::string>& notes);

}  // namespace ferrule::set
