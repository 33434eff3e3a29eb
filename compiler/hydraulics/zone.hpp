// The nodes around a chamber that oil can come from or get to in one state.
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

// `each_next(node, use)` calls `use` with every node that a way leads to. `seen` is scratch over all nodes, false on entry
// and on return.
template <class EachNext>
Zone zone_of(const std::vector<NodeId>& starts, std::vector<bool>& seen, EachNext each_next) {
  Zone zone;
  const auto add = [&](NodeId node) {
    if (seen[node.index]) return;
    seen[node.index] = true;
    zone.nodes.push_back(node);
  };
  for (NodeId start : starts) add(start);
  for (std::size_t next = 0; next < zone.nodes.size(); ++next) {
    const NodeId node = zone.nodes[next];  // `add` may move the nodes
    each_next(node, add);
  }
  for (NodeId node : zone.nodes) seen[node.index] = false;
  return zone;
}

}  // namespace ferrule::hydraulics
