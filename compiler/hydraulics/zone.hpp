// The nodes around a chamber that oil can come from or get to in one state, and the valves that were asked on the way.
#pragma once

#include <algorithm>
#include <vector>

#include "compiler/paths/paths.hpp"

namespace ferrule::hydraulics {

struct Zone {
  std::vector<NodeId> nodes;  // in the order of finding

  bool contains(NodeId node) const { return std::find(nodes.begin(), nodes.end(), node) != nodes.end(); }
  bool touches(const std::vector<bool>& marked) const {
    return std::any_of(nodes.begin(), nodes.end(), [&](NodeId node) { return marked[node.index]; });
  }
};

enum class Sweep { onward, back, both };

// `seen` is scratch over all nodes, false on entry and on return. Takes a look at each passage of the zone once.
template <class Admit>
Zone zone_of(const PassageGraph& graph, std::vector<NodeId> starts, Sweep sweep, std::vector<bool>& seen, Admit admit) {
  Zone zone;
  const auto add = [&](NodeId node) {
    if (seen[node.index]) return;
    seen[node.index] = true;
    zone.nodes.push_back(node);
  };
  for (NodeId start : starts) add(start);
  for (std::size_t next = 0; next < zone.nodes.size(); ++next) {
    const std::uint32_t node = zone.nodes[next].index;
    if (sweep != Sweep::back)
      for (std::uint32_t index : graph.leaving[node])
        if (admit(graph.passages[index])) add(graph.passages[index].to);
    if (sweep != Sweep::onward)
      for (std::uint32_t index : graph.arriving[node])
        if (admit(graph.passages[index])) add(graph.passages[index].from);
  }
  for (NodeId node : zone.nodes) seen[node.index] = false;
  return zone;
}

}  // namespace ferrule::hydraulics
