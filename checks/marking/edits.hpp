// Single changes of a student's circuit: the one that removes most differences is named as their likely cause.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule::marking {

struct Edit {
  std::string said;      // after "with": "the lines at 1A1 exchanged"
  std::function<void(Circuit&)> make;
};

// Lines exchanged at a component, a check or throttle turned round, another rest position of a valve, another centre, a
// relief valve on the other side of what stands before it, a setting as in the model. In the order of the text.
std::vector<Edit> edits_of(const Circuit& student, const Circuit& model);

}  // namespace ferrule::marking
