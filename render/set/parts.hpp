// The rows of the parts list.
#pragma once

#include "render/set/circuit_sheets.hpp"

namespace ferrule::set {

// Every part that has a place on a sheet, in the order of the text, with its sheet and field; the sheets have their numbers.
std::vector<DrawnPart> parts_of(const Circuit& circuit, const Sketch& sketch, const CircuitSheets& circuits);

}  // namespace ferrule::set
