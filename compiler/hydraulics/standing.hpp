// What a solution leaves open: oil shut in without a load on it, and flows that only friction could share out.
#pragma once

#include <vector>

#include "compiler/hydraulics/network_of.hpp"

namespace ferrule::hydraulics {

// By point: no open way joins it to anything that gives it a pressure.
std::vector<bool> trapped_points(const Model& model, const Solution& solution);

// Bodies (by index) whose flows can be exchanged without any other flow or pressure changing: which of them moves is
// left to friction. (A null space of the flow balance of the moving bodies alone.)
std::vector<std::size_t> undetermined_bodies(const Model& model, const Solution& solution);

}  // namespace ferrule::hydraulics
