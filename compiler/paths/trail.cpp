// A way as the ports one touches when tracing it with a finger.
#include <algorithm>

#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

// The port of this part at this node; for a pipe between, its numbered end.
PortId port_at(const Circuit& circuit, PartId part, NodeId node) {
  for (PortId port : circuit.nodes[node].ports)
    if (circuit.ports[port].part == part) return port;
  return {};
}

void add(std::vector<std::string>& names, std::string name) {
  if (!name.empty() && (names.empty() || names.back() != name)) names.push_back(std::move(name));
}

}  // namespace

std::vector<std::string> trail(const Circuit& circuit, const PassageGraph& graph, const Way& way) {
  std::vector<std::string> names;
  if (way.passages.empty()) return names;
  const NodeId start = graph.passages[way.passages.front()].from;
  if (!circuit.nodes[start].ports.empty()) add(names, circuit.name_of(circuit.nodes[start].ports.front()));
  for (std::uint32_t index : way.passages) {
    const Passage& passage = graph.passages[index];
    const PartId part = circuit.elements[passage.element].part;
    for (NodeId node : {passage.from, passage.to})
      if (const PortId port = port_at(circuit, part, node)) add(names, circuit.name_of(port));
  }
  const NodeId end = graph.passages[way.passages.back()].to;
  if (graph.tank[end.index])
    for (PortId port : circuit.nodes[end].ports) {
      const PartId part = circuit.ports[port].part;
      const bool is_reservoir = std::any_of(circuit.elements.begin(), circuit.elements.end(), [&](const Element& element) {
        return element.part == part && element.kind == ElementKind::reservoir;
      });
      if (!is_reservoir) continue;
      add(names, circuit.parts[part].tag);
      break;
    }
  return names;
}

}  // namespace ferrule
