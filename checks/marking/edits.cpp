#include "checks/marking/edits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace ferrule::marking {
namespace {

bool has_role(const Part& part, std::string_view role) { return part.definition && part.definition->role(role); }

// ---------------------------------------------------------------- lines exchanged

void move_ends(Circuit& circuit, PartId part, NodeId from, NodeId to) {
  for (Element& element : circuit.elements.rows) {
    if (element.part != part) continue;
    for (NodeId& end : element.ends)
      if (end == from) end = to;
    for (Sense& sense : element.senses)
      if (sense.node == from) sense.node = to;
  }
}

void put_port(Circuit& circuit, PortId port, NodeId node) {
  std::vector<PortId>& left = circuit.nodes[circuit.ports[port].node].ports;
  left.erase(std::remove(left.begin(), left.end(), port), left.end());
  circuit.nodes[node].ports.push_back(port);
  circuit.ports[port].node = node;
}

// Inner elements follow their ports; a node that is neither of the two serves as the place to set one down.
void exchange(Circuit& circuit, PortId a, PortId b) {
  const NodeId first = circuit.ports[a].node, second = circuit.ports[b].node, aside{NodeId::none - 1};
  const PartId part = circuit.ports[a].part;
  move_ends(circuit, part, first, aside);
  move_ends(circuit, part, second, first);
  move_ends(circuit, part, aside, second);
  put_port(circuit, a, second);
  put_port(circuit, b, first);
}

struct PortPair {
  std::string_view a, b, said;
};
constexpr std::array pairs{PortPair{"A", "B", "the lines at {} exchanged"}, PortPair{"P", "T", "the lines at P and T of {} exchanged"},
                           PortPair{"IN", "OUT", "{} turned round"}, PortPair{"1", "2", "{} turned round"}};

void add_exchanges(std::vector<Edit>& edits, const Circuit& circuit, PartId part) {
  if (has_role(circuit.parts[part], "line")) return;
  for (const PortPair& pair : pairs) {
    const PortId a = circuit.port_of(part, pair.a), b = circuit.port_of(part, pair.b);
    if (!a || !b || circuit.ports[a].node == circuit.ports[b].node) continue;
    edits.push_back({fmt::format(fmt::runtime(pair.said), circuit.parts[part].tag), [a, b](Circuit& c) { exchange(c, a, b); }});
  }
}

// ---------------------------------------------------------------- rest position and centre

using Joins = std::vector<std::array<std::string_view, 2>>;
const std::array<Joins, 5>& centres() {
  static const std::array<Joins, 5> all{Joins{}, Joins{{"P", "T"}}, Joins{{"A", "T"}, {"B", "T"}}, Joins{{"P", "T"}, {"A", "T"}, {"B", "T"}}, Joins{{"P", "A"}, {"P", "B"}}};
  return all;
}

void set_centre(Circuit& circuit, PartId id, const Joins& joins) {
  Part& part = circuit.parts[id];
  const std::int16_t rest = static_cast<std::int16_t>(part.rest);
  Element pattern{ElementKind::passage, id, {}, {}, {}, {}, {}, rest};
  Table<Element> kept;
  for (Element& element : circuit.elements.rows) {
    if (element.part == id && element.position >= 0 && element.kind == ElementKind::restriction) pattern.parameters = element.parameters;
    if (element.part != id || element.position != rest) kept.add(std::move(element));
  }
  if (!pattern.parameters.empty()) pattern.kind = ElementKind::restriction;
  std::vector<RowPath>& paths = part.positions[static_cast<std::size_t>(rest)].paths;
  paths.clear();
  for (const auto& [from, to] : joins) {
    paths.push_back({RowPath::Kind::joined, {std::string(from), std::string(to)}, false, {}});
    pattern.name = fmt::format("{}-{}", from, to);
    pattern.ends = {circuit.ports[circuit.port_of(id, from)].node, circuit.ports[circuit.port_of(id, to)].node};
    kept.add(pattern);
  }
  circuit.elements = std::move(kept);
}

void add_rests(std::vector<Edit>& edits, const Circuit& circuit, PartId id) {
  const Part& part = circuit.parts[id];
  if (part.rest < 0) return;
  const auto all = {"P", "A", "B", "T"};
  if (part.positions.size() == 3 && std::all_of(all.begin(), all.end(), [&](const char* port) { return bool(circuit.port_of(id, port)); }))
    for (const Joins& joins : centres())
      edits.push_back({fmt::format("another centre position of {}", part.tag), [id, &joins](Circuit& c) { set_centre(c, id, joins); }});
  for (int other = 0; part.positions.size() == 2 && other < 2; ++other)
    if (other != part.rest) edits.push_back({fmt::format("the other position of {} at rest", part.tag), [id, other](Circuit& c) { c.parts[id].rest = other; }});
}

// ---------------------------------------------------------------- relief valves

// The far ends of the elements that stand at this node: one step along the line, through a pipe, a valve or a check.
std::vector<NodeId> next_to(const Circuit& circuit, NodeId node, PartId but) {
  std::vector<NodeId> out;
  for (const Element& element : circuit.elements) {
    if (element.part == but || element.kind == ElementKind::reservoir || std::find(element.ends.begin(), element.ends.end(), node) == element.ends.end()) continue;
    for (NodeId end : element.ends)
      if (end && end != node && std::find(out.begin(), out.end(), end) == out.end()) out.push_back(end);
  }
  return out;
}

void add_moves_of_relief(std::vector<Edit>& edits, const Circuit& circuit, PartId id) {
  const Role* role = circuit.parts[id].definition ? circuit.parts[id].definition->role("limits") : nullptr;
  if (!role) return;
  const PortId inlet = circuit.port_of(id, role->ports.front());
  if (!inlet) return;
  const NodeId now = circuit.ports[inlet].node;
  std::vector<NodeId> places;
  for (NodeId near : next_to(circuit, now, id))
    for (NodeId far : next_to(circuit, near, id))
      for (NodeId place : {near, far})
        if (place != now && std::find(places.begin(), places.end(), place) == places.end()) places.push_back(place);
  for (NodeId place : places)
    edits.push_back({fmt::format("{} joined at another place of the line", circuit.parts[id].tag), [id, inlet, now, place](Circuit& c) {
                       move_ends(c, id, now, place);
                       put_port(c, inlet, place);
                     }});
}

// ---------------------------------------------------------------- settings

void set_as(Circuit& circuit, PartId id, Parameter setting, double si) {
  for (Element& element : circuit.elements.rows)
    if (element.part == id)
      if (const auto at = std::find_if(element.parameters.begin(), element.parameters.end(), [&](const ParameterValue& p) { return p.id == setting; }); at != element.parameters.end()) {
        const double factor = si / at->si;
        for (ParameterValue& other : element.parameters)
          if (setting == Parameter::cracking ? other.id == Parameter::cracking || other.id == Parameter::full_flow : other.id == setting) other.si *= factor;
      }
}

// What the model sets of the same kind of part; settings that agree already make no edit.
void add_settings(std::vector<Edit>& edits, const Circuit& circuit, const Circuit& model, const Element& element) {
  const Part& part = circuit.parts[element.part];
  for (const Parameter setting : {Parameter::cracking, Parameter::setting, Parameter::flow, Parameter::opening}) {
    const std::optional<double> now = element.value(setting);
    if (!now || *now == 0) continue;
    std::vector<double> wanted;
    for (const Element& other : model.elements)
      if (const std::optional<double> value = other.value(setting); other.kind == element.kind && value && *value != *now && std::find(wanted.begin(), wanted.end(), *value) == wanted.end())
        wanted.push_back(*value);
    for (const double si : wanted)
      edits.push_back({fmt::format("another setting of {}", part.tag), [id = element.part, setting, si](Circuit& c) { set_as(c, id, setting, si); }});
  }
}

}  // namespace

std::vector<Edit> edits_of(const Circuit& student, const Circuit& model) {
  std::vector<Edit> edits;
  for (std::uint32_t i = 0; i < student.parts.size(); ++i) {
    add_exchanges(edits, student, {i});
    add_rests(edits, student, {i});
    add_moves_of_relief(edits, student, {i});
  }
  for (const Element& element : student.elements)
    if (!student.parts[element.part].facts.empty()) add_settings(edits, student, model, element);
  return edits;
}

}  // namespace ferrule::marking
