// From elements to equations: what of a circuit takes part in one state, and by which law.
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/hydraulics/bodies.hpp"
#include "compiler/hydraulics/network.hpp"
#include "compiler/hydraulics/reading.hpp"

namespace ferrule::hydraulics {

inline constexpr std::uint32_t no_branch = 0xffffffff;

struct Model {
  Network network;
  std::vector<std::uint32_t> point_of;   // by node
  std::vector<std::uint32_t> branch_of;  // by element; no_branch for what passes nothing in this state
  std::vector<MovingBody> bodies;
};

// `tripped`: flow fuses that have shut.
Model network_of(Reading& reading, const std::vector<ElementId>& tripped);

}  // namespace ferrule::hydraulics
