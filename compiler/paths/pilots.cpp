#include "compiler/paths/pilots.hpp"

#include <algorithm>

namespace ferrule {
namespace {

// Oil presses there: a source reaches it and nothing lets it off to the reservoir.
std::vector<bool> under_pressure(const Circuit& circuit, const PassageGraph& graph, const State& state) {
  const std::vector<Conduction> conduction = conduction_in(circuit, graph, state);
  const auto of = [&](const Passage& passage) { return conduction[&passage - graph.passages.data()]; };
  std::vector<NodeId> outlets;
  for (const OilSource& source : sources_in(circuit, state, true)) outlets.push_back(circuit.ports[source.outlet].node);
  const Reached fed = reach(graph, outlets, [&](const Passage& p) {
    return !graph.tank[p.from.index] && of(p) != Conduction::shut;
  });
  const Reached relieved =
      reaching(graph, tank_nodes(circuit), [&](const Passage& p) { return of(p) == Conduction::open; });
  std::vector<bool> pressed(circuit.nodes.size());
  for (std::size_t node = 0; node < pressed.size(); ++node) pressed[node] = fed.by[node] != -2 && relieved.by[node] == -2;
  return pressed;
}

// With pressure on both ends, the springs (or the detent) decide.
std::vector<std::int16_t> shifted(const std::vector<Pilot>& pilots, const std::vector<bool>& pressed,
                                  const std::vector<std::int16_t>& left_alone) {
  std::vector<std::int16_t> positions = left_alone;
  std::vector<int> acting(left_alone.size());
  for (const Pilot& pilot : pilots)
    if (pressed[pilot.node.index]) {
      positions[pilot.valve.index] = ++acting[pilot.valve.index] == 1 ? pilot.position : left_alone[pilot.valve.index];
    }
  return positions;
}

}  // namespace

std::vector<Pilot> pilots_of(const Circuit& circuit) {
  std::vector<Pilot> pilots;
  for (std::uint32_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[{index}];
    for (std::size_t row = 0; row < part.positions.size(); ++row)
      for (const Actuation& by : part.positions[row].by) {
        if (by.means != "pilot") continue;
        if (const PortId port = circuit.port_of({index}, by.tag))
          pilots.push_back({{index}, static_cast<std::int16_t>(row), circuit.ports[port].node});
      }
  }
  return pilots;
}

std::vector<PartId> settle_pilots(const Circuit& circuit, const PassageGraph& graph, std::vector<Pilot> pilots,
                                  const std::vector<bool>& commanded, State& state) {
  std::erase_if(pilots, [&](const Pilot& pilot) { return commanded[pilot.valve.index]; });
  if (pilots.empty()) return {};
  const std::vector<std::int16_t> left_alone = state.position;
  std::vector<std::vector<std::int16_t>> seen{state.position};
  for (std::size_t round = 0; round < 2 * pilots.size() + 8; ++round) {
    std::vector<std::int16_t> next = shifted(pilots, under_pressure(circuit, graph, state), left_alone);
    if (next == state.position) return {};
    state.position = next;
    if (std::find(seen.begin(), seen.end(), next) != seen.end()) break;
    seen.push_back(std::move(next));
  }
  std::vector<PartId> unsettled;
  for (const Pilot& pilot : pilots)
    if (std::find(unsettled.begin(), unsettled.end(), pilot.valve) == unsettled.end()) unsettled.push_back(pilot.valve);
  return unsettled;
}

}  // namespace ferrule
