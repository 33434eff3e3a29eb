#include "compiler/states/coupled.hpp"

#include <algorithm>
#include <numeric>

namespace ferrule {
namespace {

// Nodes that oil joins whatever position the valves are in.
class Nets {
 public:
  explicit Nets(std::size_t nodes) : parent_(nodes) { std::iota(parent_.begin(), parent_.end(), 0u); }
  std::uint32_t of(std::uint32_t node) {
    while (parent_[node] != node) node = parent_[node] = parent_[parent_[node]];
    return node;
  }
  void join(std::uint32_t a, std::uint32_t b) { parent_[of(a)] = of(b); }

 private:
  std::vector<std::uint32_t> parent_;
};

bool joins_nets(const Circuit& circuit, const Passage& passage) {
  // A relief parts the zones, and a shuttle hands on a signal only.
  return passage.position < 0 && !passage.limiter && circuit.elements[passage.element].kind != ElementKind::selector;
}

}  // namespace

Coupling::Coupling(const Circuit& circuit) : nets_(circuit.parts.size()) {
  const PassageGraph graph = passages_of(circuit);
  Nets nets(circuit.nodes.size());
  for (const Passage& passage : graph.passages)
    if (joins_nets(circuit, passage)) nets.join(passage.from.index, passage.to.index);
  std::vector<bool> common(circuit.nodes.size());
  for (NodeId node : tank_nodes(circuit)) common[nets.of(node.index)] = true;
  for (const OilSource& pump : pumps_of(circuit)) common[nets.of(circuit.ports[pump.outlet].node.index)] = true;
  for (std::uint32_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[{index}];
    if (part.positions.empty()) continue;
    for (std::uint32_t port = part.first_port; port < part.first_port + part.port_count; ++port) {
      const std::uint32_t net = nets.of(circuit.ports[{port}].node.index);
      if (!common[net]) nets_[index].push_back(net);
    }
    std::sort(nets_[index].begin(), nets_[index].end());
  }
}

bool Coupling::is_coupled(PartId one, PartId other) const {
  const auto& a = nets_[one.index];
  const auto& b = nets_[other.index];
  return std::any_of(a.begin(), a.end(), [&](std::uint32_t net) { return std::binary_search(b.begin(), b.end(), net); });
}

}  // namespace ferrule
