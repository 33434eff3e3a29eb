// Fixed texts that every report carries, chosen by what the circuit holds. No option leaves them out.
#pragma once

#include <string>
#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule {

// The caution that always stands, first; then those for stored gas, hung loads, hoses and jets where the circuit has them.
std::vector<std::string> cautions_for(const Circuit& circuit);

}  // namespace ferrule
