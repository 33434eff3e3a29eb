// The ways that are open in a state, found from those at rest: few valves move at a time, and a rail has hundreds.
#pragma once

#include <vector>

#include "compiler/paths/paths.hpp"

namespace ferrule::hydraulics {

// Ways that exist in the valve positions of one state; what opens by pressure counts as open.
struct OpenWays {
  OpenWays(const Circuit& circuit, const PassageGraph& graph, const State& usual);

  const Circuit& circuit;
  const PassageGraph& graph;
  std::vector<std::int16_t> usual;                         // by part
  std::vector<std::vector<std::uint32_t>> leaving, arriving;  // by node: passages that exist in the usual positions
  std::vector<std::vector<std::uint32_t>> of_valve;        // by part: all passages of its positions
  std::vector<std::vector<PartId>> valves_at;              // by node: valves with a passage there
};

// One state, and the valves that do not stand as usual in it.
struct Moment {
  Moment(const OpenWays& ways, const State& state);

  const OpenWays& ways;
  const State& state;
  std::vector<PartId> moved;

  bool is_moved(const Passage& p) const {
    if (p.position < 0 || moved.empty()) return false;
    const PartId valve = ways.circuit.elements[p.element].part;
    return ways.usual[valve.index] != state.position[valve.index];
  }
  template <class Use>
  void each_leaving(NodeId node, Use use) const { each(ways.leaving[node.index], &Passage::from, node, use); }
  template <class Use>
  void each_arriving(NodeId node, Use use) const { each(ways.arriving[node.index], &Passage::to, node, use); }

 private:
  template <class Use>
  void each(const std::vector<std::uint32_t>& as_usual, NodeId Passage::*end, NodeId node, Use use) const {
    for (std::uint32_t index : as_usual)
      if (!is_moved(ways.graph.passages[index])) use(ways.graph.passages[index]);
    for (PartId valve : moved)
      for (std::uint32_t index : ways.of_valve[valve.index]) {
        const Passage& p = ways.graph.passages[index];
        if (p.*end == node && p.position == state.position[valve.index]) use(p);
      }
  }
};

}  // namespace ferrule::hydraulics
