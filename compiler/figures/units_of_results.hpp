// One unit for each kind of result, so that a program need not guess: bar, L/min, m/s, r/min, N, N m, W, degC, s ...
#pragma once

#include <string>
#include <utility>

#include "compiler/quantities/quantity.hpp"

namespace ferrule::working {

// Value and the unit it is in; base units of the SI where the trade has no unit of its own.
std::pair<double, std::string> in_usual_unit(double si, Dimension dimension);

}  // namespace ferrule::working
