// The most that any state can send through an element, proved without solving a state.
//
// Sources of flow are the pumps, S in all, and what moving bodies push out. A body that nothing but pressure moves takes
// in pump oil: with f its pressurised intake for each unit of its motion, speed <= S / f; where its exhaust may come
// round to its own intake (regeneration), speed <= S / (intake - exhaust). A load that drives is paced by the pump too
// when every way out for the oil it presses on stays shut as long as nothing presses on its intake (counterbalance
// valve, piloted check valve); else nothing is proved of it here. All bodies share S, so no line carries more than
// S times the largest gain of a body, and a line to one chamber no more than that chamber takes or gives.
// A return line presses on an intake by no more than the drops on its sure way to the reservoir.
// (Continuity and the balance of forces; no source needed beyond the textbook.)
#pragma once

#include <limits>
#include <span>
#include <vector>

#include "compiler/hydraulics/network_of.hpp"
#include "compiler/paths/paths.hpp"

namespace ferrule::hydraulics {

inline constexpr double unbounded = std::numeric_limits<double>::infinity();

// By element, L/min; of pipes only, `unbounded` for all else and where nothing is proved.
std::vector<double> most_flows(const Shared& shared, const PassageGraph& graph, std::span<const State> states);

}  // namespace ferrule::hydraulics
