// What only the whole circuit shows: ports that nothing joins, groups that no oil reaches.
#include <algorithm>
#include <numeric>
#include <utility>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

bool must_be_joined(const Port& port) {
  const bool hydraulic = port.use == PortUse::main || port.use == PortUse::pilot || port.use == PortUse::drain;
  return port.end == Port::End::unjoined && hydraulic && !(port.spec && port.spec->may_stay_open);
}

Span place_of(const Circuit& circuit, PortId id) {
  const Port& port = circuit.ports[id];
  return port.span.empty() ? circuit.parts[port.part].span : port.span;
}

void report_open_port(Building& building, PortId id) {
  const Circuit& circuit = building.circuit;
  const Port& port = circuit.ports[id];
  const std::string name = circuit.name_of(id);
  const std::string what = port.spec && !port.spec->text.empty() ? " (" + port.spec->text + ")" : "";
  Message& message = building.reading.report(fault::port_open, place_of(circuit, id), fmt::format("`{}` is joined to nothing", name),
                                             fmt::format("join `{}`{} in a run, or say `plugged {}` or `open {} because \"...\"`", name, what, name, name));
  message.subject = circuit.parts[port.part].tag;
}

// One run forgotten leaves two ports open, and is one slip.
void report_open_pair(Building& building, PortId one, PortId other) {
  const Circuit& circuit = building.circuit;
  if (place_of(circuit, other).begin < place_of(circuit, one).begin) std::swap(one, other);
  const std::string first = circuit.name_of(one), second = circuit.name_of(other);
  Message& message = building.reading.report(fault::port_open, place_of(circuit, one), fmt::format("`{}` and `{}` are joined to nothing", first, second),
                                             fmt::format("if a run is missing, write it: `... {} -- {}`; else say `plugged {}` or `open {} because \"...\"`",
                                                         first, second, first, first));
  message.subject = circuit.parts[circuit.ports[one].part].tag;
  message.places.push_back({place_of(circuit, other), "and this one"});
}

void report_loose_part(Building& building, PartId id) {
  const Part& part = building.circuit.parts[id];
  std::vector<std::string> names;
  for (std::uint32_t i = part.first_port; i < part.first_port + part.port_count; ++i) names.push_back(building.circuit.ports.rows[i].name);
  Message& message = building.reading.report(fault::port_open, part.span, fmt::format("no run joins `{}`", part.tag),
                                             part.definition->ports_as_named ? "end a run at it" : "join its ports " + listed(names, "and"));
  message.subject = part.tag;
}

// Adds the open ports of a part; one that no run joins at all is told at once. True when there was something to tell.
bool find_open_ports_of(Building& building, PartId id, std::vector<PortId>& all) {
  const Part& part = building.circuit.parts[id];
  std::vector<PortId> open;
  bool joined = false;
  for (std::uint32_t i = part.first_port; i < part.first_port + part.port_count; ++i) {
    const Port& port = building.circuit.ports.rows[i];
    joined = joined || port.end != Port::End::unjoined;
    if (must_be_joined(port)) open.push_back({i});
  }
  if (open.empty()) return false;
  if (!joined && (open.size() > 1 || part.definition->ports_as_named)) report_loose_part(building, id);
  else all.insert(all.end(), open.begin(), open.end());
  return true;
}

// The port that the same run would have joined: the only other one, or the only other one of the same name.
PortId partner_of(const Circuit& circuit, PortId id, const std::vector<PortId>& open) {
  std::vector<PortId> others, namesakes;
  for (const PortId other : open) {
    if (circuit.ports[other].part == circuit.ports[id].part) continue;
    others.push_back(other);
    if (circuit.ports[other].name == circuit.ports[id].name) namesakes.push_back(other);
  }
  if (open.size() == 2 && others.size() == 1) return others.front();
  return namesakes.size() == 1 ? namesakes.front() : PortId{};
}

void report_each_slip(Building& building, const std::vector<PortId>& open) {
  constexpr std::size_t many = 64;  // beyond that it is no forgotten run, and the search for partners would be long
  for (const PortId id : open) {
    const PortId partner = open.size() > many ? PortId{} : partner_of(building.circuit, id, open);
    const bool mutual = partner && partner_of(building.circuit, partner, open) == id;
    if (!mutual) report_open_port(building, id);
    else if (id.index < partner.index) report_open_pair(building, id, partner);
  }
}

// Parts that one group of joined ports holds together.
struct Groups {
  std::vector<std::uint32_t> of;  // by part: the first part of its group
  std::uint32_t root(std::uint32_t part) {
    while (of[part] != part) part = of[part] = of[of[part]];
    return part;
  }
};

Groups groups_of(const Circuit& circuit) {
  Groups groups{std::vector<std::uint32_t>(circuit.parts.size())};
  std::iota(groups.of.begin(), groups.of.end(), 0u);
  for (const Node& node : circuit.nodes)
    for (const PortId port : node.ports) {
      const std::uint32_t a = groups.root(circuit.ports[node.ports.front()].part.index), b = groups.root(circuit.ports[port].part.index);
      groups.of[std::max(a, b)] = std::min(a, b);
    }
  return groups;
}

struct Group {
  std::vector<std::uint32_t> parts;
  bool tank = false, source = false, told = false;
};

void report_floating(Building& building, const Group& group) {
  const Circuit& circuit = building.circuit;
  const Part& first = circuit.parts.rows[group.parts.front()];
  const std::string what = group.tank ? "pump or accumulator" : "reservoir";
  const std::size_t others = group.parts.size() - 1;
  Message& message = building.reading.report(
      fault::floating_part, first.span,
      fmt::format("no {} is joined to `{}`{}", what, first.tag, others == 0 ? "" : fmt::format(" and the {} that it is joined with", others == 1 ? "part" : fmt::format("{} parts", others))),
      fmt::format("join them by a run to a {}", what));
  message.subject = first.tag;
  for (std::size_t i = 1; i < group.parts.size() && message.places.size() < 5; ++i)
    if (!circuit.parts.rows[group.parts[i]].definition->is_pipe) message.places.push_back({circuit.parts.rows[group.parts[i]].span, "in the same group"});
}

void add_to_group(const Building& building, std::uint32_t index, Group& group) {
  const Part& part = building.circuit.parts.rows[index];
  const Definition& definition = *part.definition;
  group.parts.push_back(index);
  group.tank = group.tank || definition.role("tank");
  group.source = group.source || definition.role("feeds") || definition.role("stores") || part.has("off-sheet");
  group.told = group.told || building.texts[index].silent || part.has("off-sheet");
}

// A part without ports, or one whose ports may all stay open (a breather on its cover): no oil has to reach it.
bool stands_alone(const Building& building, const Group& group) {
  if (group.parts.size() != 1) return false;
  const Part& part = building.circuit.parts.rows[group.parts.front()];
  for (std::uint32_t i = part.first_port; i < part.first_port + part.port_count; ++i) {
    const Port& port = building.circuit.ports.rows[i];
    if (!port.spec || !port.spec->may_stay_open) return false;
  }
  return true;
}

}  // namespace

void report_open_ports(Building& building) {
  if (building.reading.names_missing || building.lost_ends) return;
  std::vector<PortId> open;
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i)
    if (!building.texts[i].silent && find_open_ports_of(building, {i}, open)) building.texts[i].silent = true;
  report_each_slip(building, open);
}

void report_floating_parts(Building& building) {
  if (building.reading.names_missing || building.lost_ends) return;
  Groups groups = groups_of(building.circuit);
  std::map<std::uint32_t, Group> by_root;
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i) add_to_group(building, i, by_root[groups.root(i)]);
  for (const auto& [root, group] : by_root)
    if (!(group.tank && group.source) && !group.told && !stands_alone(building, group)) report_floating(building, group);
}

}  // namespace ferrule
