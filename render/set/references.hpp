// Marks of one net on neighbouring sheets, paired: each names the sheet and field of the other.
#pragma once

#include "render/set/circuit_sheets.hpp"

namespace ferrule::set {

// Letters the marks and fills DrawnSheet::references; the sheets have their numbers.
void refer(std::vector<CircuitSheet>& sheets, const Sketch& sketch, const Drawing& drawing);

}  // namespace ferrule::set
