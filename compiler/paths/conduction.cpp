// What conducts in one state: positions first, then everything that a pilot line decides.
#include <algorithm>

#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

using enum Conduction;

// A hand valve is as its symbol shows unless the state says that it was opened or closed.
bool is_shut(const Element& element, const State& state) {
  if (element.kind != ElementKind::restriction) return false;
  bool shut = element.has("shut");
  if (!shut && !element.has("shut-off")) return false;
  for (const Command& command : state.settings)
    if (command.part == element.part) {
      if (command.kind == Command::Kind::open) shut = false;
      if (command.kind == Command::Kind::closed) shut = true;
    }
  return shut;
}

// Before any pilot is asked: the ways back through piloted checks and selectors stay shut.
Conduction by_position(const Circuit& circuit, const State& state, const Passage& passage) {
  const Element& element = circuit.elements[passage.element];
  if (passage.position >= 0 && state.position[element.part.index] != passage.position) return shut;
  if (is_shut(element, state)) return shut;
  const bool backwards = element.ends.size() > 1 && passage.from == element.ends[1];
  switch (element.kind) {
    case ElementKind::pressure_path: return is_normally_open(element) ? open : by_pressure;
    case ElementKind::reducing_path: return backwards ? by_pressure : open;
    case ElementKind::piloted_one_way: return backwards ? shut : open;
    case ElementKind::selector: return passage.from == element.ends[2] ? shut : open;
    case ElementKind::regulated_flow: return element.ends.size() > 2 && passage.to == element.ends[2] ? by_pressure : open;
    default: return open;
  }
}

// A port where a pilot line arrives: what is subtracted there keeps the valve shut, unless it is let off.
bool is_pilot_node(const Circuit& circuit, NodeId node, PartId part) {
  const std::vector<PortId>& ports = circuit.nodes[node].ports;
  return std::any_of(ports.begin(), ports.end(), [&](PortId port) {
    return circuit.ports[port].part == part && circuit.ports[port].use == PortUse::pilot;
  });
}

bool is_ventable(const Circuit& circuit, const Element& element) {
  return element.kind == ElementKind::pressure_path &&
         std::any_of(element.senses.begin(), element.senses.end(), [&](const Sense& sense) {
           return sense.weight < 0 && sense.node != element.ends[1] && is_pilot_node(circuit, sense.node, element.part);
         });
}

bool depends_on_pilot(const Circuit& circuit, const Element& element) {
  return element.kind == ElementKind::piloted_one_way || element.kind == ElementKind::selector || is_ventable(circuit, element);
}

// Which nodes stand under pressure, and which are let off to the reservoir, as far as the passages are known.
struct Pressures {
  Reached fed, relieved;
  bool under_pressure(NodeId node) const { return node && fed.contains(node) && !relieved.contains(node); }
};

Pressures pressures(const PassageGraph& graph, const std::vector<NodeId>& outlets, const std::vector<NodeId>& tanks,
                    const std::vector<Conduction>& conduction) {
  const auto conduction_of = [&](const Passage& passage) { return conduction[&passage - graph.passages.data()]; };
  return {reach(graph, outlets, [&](const Passage& p) { return !graph.tank[p.from.index] && conduction_of(p) != shut; }),
          reaching(graph, tanks, [&](const Passage& p) { return conduction_of(p) == open; })};
}

bool is_piloted(const Element& element, const Pressures& now) {
  return std::any_of(element.senses.begin(), element.senses.end(), [&](const Sense& sense) {
    const bool own_end = std::find(element.ends.begin(), element.ends.end(), sense.node) != element.ends.end();
    return !own_end && sense.weight > 0 && now.under_pressure(sense.node);
  });
}

Conduction of_piloted_check(const Element& element, bool backwards, const Pressures& now) {
  const bool piloted = is_piloted(element, now);
  if (element.has("closing")) return piloted ? shut : open;
  return backwards && !piloted ? shut : open;
}

// A relief whose vent, or a by-pass compensator whose load signal is let off to the reservoir stands open at a few bar
// (common practice).
Conduction of_ventable(const Circuit& circuit, const Element& element, const Pressures& now) {
  const bool vented = std::any_of(element.senses.begin(), element.senses.end(), [&](const Sense& sense) {
    return sense.weight < 0 && is_pilot_node(circuit, sense.node, element.part) && now.relieved.contains(sense.node);
  });
  return vented ? open : by_pressure;
}

// The ball is pushed to the side of lower pressure; with pressure on both, it lets none of it back.
Conduction of_selector(const Element& element, const Passage& passage, const Pressures& now) {
  const auto sides = {element.ends[0], element.ends[1]};
  const auto pressed = std::count_if(sides.begin(), sides.end(), [&](NodeId node) { return now.under_pressure(node); });
  const bool outward = passage.to == element.ends[2];
  const NodeId side = outward ? passage.from : passage.to;
  if (pressed == 0) return open;
  if (pressed == 2) return outward ? open : shut;
  return now.under_pressure(side) ? open : shut;
}

Conduction by_pilot(const Circuit& circuit, const Passage& passage, const Pressures& now) {
  const Element& element = circuit.elements[passage.element];
  if (element.kind == ElementKind::selector) return of_selector(element, passage, now);
  if (element.kind == ElementKind::pressure_path) return of_ventable(circuit, element, now);
  return of_piloted_check(element, passage.from == element.ends[1], now);
}

}  // namespace

std::vector<Conduction> conduction_in(const Circuit& circuit, const PassageGraph& graph, const State& state) {
  std::vector<Conduction> conduction(graph.passages.size());
  std::vector<std::uint32_t> piloted;
  for (std::uint32_t index = 0; index < graph.passages.size(); ++index) {
    const Passage& passage = graph.passages[index];
    conduction[index] = by_position(circuit, state, passage);
    const bool in_position = passage.position < 0 || conduction[index] != shut ||
                             state.position[circuit.elements[passage.element].part.index] == passage.position;
    if (in_position && depends_on_pilot(circuit, circuit.elements[passage.element])) piloted.push_back(index);
  }
  std::vector<NodeId> outlets;
  for (const OilSource& source : sources_in(circuit, state, true)) outlets.push_back(circuit.ports[source.outlet].node);
  const std::vector<NodeId> tanks = tank_nodes(circuit);
  // Twice the piloted passages and eight are enough where pilots settle; what still alternates then is left as it is.
  for (std::size_t round = 0; !piloted.empty() && round < 2 * piloted.size() + 8; ++round) {
    const Pressures now = pressures(graph, outlets, tanks, conduction);
    bool changed = false;
    for (std::uint32_t index : piloted) {
      const Conduction next = by_pilot(circuit, graph.passages[index], now);
      changed = changed || next != conduction[index];
      conduction[index] = next;
    }
    if (!changed) break;
  }
  return conduction;
}

bool conducts(const Circuit& circuit, const State& state, const Passage& passage) {
  if (!depends_on_pilot(circuit, circuit.elements[passage.element])) return by_position(circuit, state, passage) != shut;
  const PassageGraph graph = passages_of(circuit);
  const std::vector<Conduction> conduction = conduction_in(circuit, graph, state);
  for (std::size_t index = 0; index < graph.passages.size(); ++index) {
    const Passage& other = graph.passages[index];
    if (other.element == passage.element && other.from == passage.from && other.to == passage.to)
      return conduction[index] != shut;
  }
  return false;
}

}  // namespace ferrule
