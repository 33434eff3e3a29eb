// Valves that a pilot line shifts: their positions follow from the state, and the state from their positions.
#pragma once

#include "compiler/paths/paths.hpp"

namespace ferrule {

// A pilot line that brings a valve into a position.
struct Pilot {
  PartId valve;
  std::int16_t position;
  NodeId node;
};
std::vector<Pilot> pilots_of(const Circuit& circuit);

// Moves every piloted valve that nothing else commands (`commanded` by part) to the position its fed pilot brings. Returns
// the valves whose position would not settle (2 x their number + 8 rounds, or a vector that comes back: it swings).
std::vector<PartId> settle_pilots(const Circuit& circuit, const PassageGraph& graph, std::vector<Pilot> pilots,
                                  const std::vector<bool>& commanded, State& state);

}  // namespace ferrule
