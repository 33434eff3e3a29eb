#include "checks/machinery/ceiling.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "checks/machinery/evidence.hpp"
#include "compiler/paths/proof.hpp"

namespace ferrule {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();

// Lowest relief surely attached, by node: sure ways lead from the node to the relief's inlet.
std::vector<double> clamps_of(const Solved& solved) {
  const PassageGraph& graph = solved.graph;
  std::vector<double> clamp(graph.tank.size(), unlimited);
  const auto sure = [](const Passage& p) { return p.reliance == Reliance::sure && !p.limiter; };
  for (const Passage& relief : graph.passages) {
    if (!relief.limiter || relief.reliance != Reliance::sure) continue;
    const double set = full_flow_pressure(solved.circuit, solved.circuit.elements[relief.element]).value_or(unlimited);
    const Reached guarded = reaching(graph, std::vector<NodeId>{relief.from}, sure);
    for (std::uint32_t node = 0; node < clamp.size(); ++node)
      if (guarded.by[node] != -2) clamp[node] = std::min(clamp[node], set);
  }
  return clamp;
}

// Rises from the sources along every way that may open; only raised nodes are looked at again, and every value is one of a
// finite set of settings, so it ends.
void spread(const Solved& solved, const std::vector<double>& clamp, const std::vector<bool>& relieved, NodeId start, double pressure,
            std::vector<double>& ceiling) {
  std::vector<NodeId> front;
  const auto raise = [&](NodeId node, double to) {
    to = relieved[node.index] || solved.graph.tank[node.index] ? 0 : std::min(to, clamp[node.index]);
    if (to <= ceiling[node.index]) return;
    ceiling[node.index] = to;
    front.push_back(node);
  };
  raise(start, pressure);
  while (!front.empty()) {
    const NodeId node = front.back();
    front.pop_back();
    for (const std::uint32_t index : solved.graph.leaving[node.index]) {
      const Passage& p = solved.graph.passages[index];
      const Element& element = solved.circuit.elements[p.element];
      double to = ceiling[node.index];
      if (element.kind == ElementKind::reducing_path && p.from == element.ends.front()) to = std::min(to, element.value(Parameter::setting).value_or(unlimited));
      raise(p.to, to);
    }
  }
}

}  // namespace

std::vector<std::optional<double>> ceilings_of(const Solved& solved) {
  const std::vector<double> clamp = clamps_of(solved);
  const std::vector<bool> relieved = surely_relieved(solved.circuit, solved.graph);
  std::vector<double> ceiling(clamp.size(), -1);
  for (const OilSource& pump : pumps_of(solved.circuit))
    spread(solved, clamp, relieved, solved.circuit.ports[pump.outlet].node, unlimited, ceiling);
  std::vector<std::optional<double>> out(clamp.size());
  for (std::size_t node = 0; node < out.size(); ++node)
    if (std::isfinite(ceiling[node])) out[node] = std::max(0.0, ceiling[node]);
  return out;
}

}  // namespace ferrule
