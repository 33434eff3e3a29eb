// The law of every element with its nodes, read once for all states.
#pragma once

#include <optional>
#include <vector>

#include "compiler/hydraulics/laws.hpp"
#include "compiler/hydraulics/reading.hpp"

namespace ferrule::hydraulics {

struct Prepared {
  std::optional<AnyLaw> law;  // none for what passes nothing of its own (passages, bodies, dead ends)
  std::vector<NodeId> nodes;
  std::vector<double> gives;  // by node and own unknown
  std::uint32_t own = 0;
};

// `scale_flow`: flow of the pumps, L/min, for defaults that have no rated flow.
Prepared prepared(Reading& reading, const Element& element, double scale_flow);

}  // namespace ferrule::hydraulics
