// What a solution leaves open: oil shut in without a load on it, and flows that only friction could share out.
#pragma once

#include <vector>

#include "compiler/hydraulics/network_of.hpp"

namespace ferrule::hydraulics {

// By point: no open way joins it to anything that gives it a pressure.
std::vector<bool> trapped_points(const Model& model, const Solution& solution);

// Adds a note for bodies that share one flow by nothing but friction; their flows and speeds become unknown.
void note_undetermined(OperatingPoint& point, const Circuit& circuit, const Model& model, const Solution& solution);

}  // namespace ferrule::hydraulics
