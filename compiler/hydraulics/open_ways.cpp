#include "compiler/hydraulics/open_ways.hpp"

#include "compiler/states/differences.hpp"

namespace ferrule::hydraulics {

OpenWays::OpenWays(const Circuit& of, const PassageGraph& all, const State& at)
    : circuit(of), graph(all), usual(at.position), leaving(all.tank.size()), arriving(all.tank.size()), of_valve(of.parts.size()), valves_at(all.tank.size()) {
  for (std::uint32_t index = 0; index < graph.passages.size(); ++index) {
    const Passage& p = graph.passages[index];
    const PartId part = circuit.elements[p.element].part;
    if (p.position >= 0) {
      of_valve[part.index].push_back(index);
      for (NodeId end : {p.from, p.to})
        if (valves_at[end.index].empty() || valves_at[end.index].back() != part) valves_at[end.index].push_back(part);
    }
    if (p.position >= 0 && p.position != usual[part.index]) continue;
    leaving[p.from.index].push_back(index);
    arriving[p.to.index].push_back(index);
  }
}

Moment::Moment(const OpenWays& all, const State& at) : ways(all), state(at) {
  each_difference(state.position, ways.usual, [&](std::size_t part) { moved.push_back({static_cast<std::uint32_t>(part)}); });
}

}  // namespace ferrule::hydraulics
