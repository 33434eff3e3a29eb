// What only the whole circuit shows: ports that nothing joins, groups that no oil reaches.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/build/groups.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

bool must_be_joined(const Port& port) {
  const bool hydraulic = port.use == PortUse::main || port.use == PortUse::pilot || port.use == PortUse::drain;
  return port.end == Port::End::unjoined && hydraulic && !(port.spec && port.spec->may_stay_open);
}

// An end that a run should join: a port, or a part that no run joins at all.
struct OpenEnd {
  PartId part;
  PortId port;  // none for the whole part
};

std::string name_of(const Circuit& circuit, const OpenEnd& end) { return end.port ? circuit.name_of(end.port) : circuit.parts[end.part].tag; }

Span place_of(const Circuit& circuit, const OpenEnd& end) {
  const Span port = end.port ? circuit.ports[end.port].span : Span{};
  return port.empty() ? circuit.parts[end.part].span : port;
}

void report_open_port(Building& building, const OpenEnd& end) {
  const Circuit& circuit = building.circuit;
  const Port& port = circuit.ports[end.port];
  const std::string name = circuit.name_of(end.port);
  const std::string what = port.spec && !port.spec->text.empty() ? " (" + port.spec->text + ")" : "";
  building.reading.report(fault::port_open, place_of(circuit, end), fmt::format("`{}` is joined to nothing", name),
                          fmt::format("join `{}`{} in a run, or say `plugged {}` or `open {} because \"...\"`", name, what, name, name))
      .subject = circuit.parts[end.part].tag;
}

void report_loose_part(Building& building, const OpenEnd& end) {
  const Part& part = building.circuit.parts[end.part];
  std::vector<std::string> names;
  for (std::uint32_t i = part.first_port; i < part.first_port + part.port_count; ++i) names.push_back(building.circuit.ports.rows[i].name);
  building.reading.report(fault::port_open, part.span, fmt::format("no run joins `{}`", part.tag),
                          part.definition->ports_as_named ? "end a run at it" : "join its ports " + listed(names, "and")).subject = part.tag;
}

std::string names_of(const Circuit& circuit, const std::vector<OpenEnd>& ends) {
  constexpr std::size_t most = 8;  // beyond that a sentence is no longer read
  std::vector<std::string> names;
  for (const OpenEnd& end : ends)
    if (names.size() < most) names.push_back(name_of(circuit, end));
  if (ends.size() > most) return fmt::format("`{}` and {} more", fmt::join(names, "`, `"), ends.size() - most);
  return listed(names, "and");
}

// One run that is forgotten or cut leaves several ends open, and is one slip.
void report_open_ends(Building& building, std::vector<OpenEnd> ends) {
  constexpr std::size_t most_places = 20;
  const Circuit& circuit = building.circuit;
  std::stable_sort(ends.begin(), ends.end(), [&](const OpenEnd& a, const OpenEnd& b) {
    const Span x = place_of(circuit, a), y = place_of(circuit, b);
    return std::pair(x.file, x.begin) < std::pair(y.file, y.begin);
  });
  Message& message = building.reading.report(fault::port_open, place_of(circuit, ends.front()), fmt::format("{} are joined to nothing", names_of(circuit, ends)),
                                             fmt::format("write the run that is missing, as `pressure {} -- {}`; a port that is meant to stay "
                                                         "free is `plugged` or `open`", name_of(circuit, ends[0]), name_of(circuit, ends[1])));
  message.subject = circuit.parts[ends.front().part].tag;
  for (std::size_t i = 1; i < ends.size() && i < most_places; ++i) message.places.push_back({place_of(circuit, ends[i]), "and this one"});
}

void find_open_ends_of(const Building& building, PartId id, std::vector<OpenEnd>& ends) {
  const Part& part = building.circuit.parts[id];
  std::vector<OpenEnd> open;
  bool joined = false;
  for (std::uint32_t i = part.first_port; i < part.first_port + part.port_count; ++i) {
    const Port& port = building.circuit.ports.rows[i];
    joined = joined || port.end != Port::End::unjoined;
    if (must_be_joined(port)) open.push_back({id, PortId{i}});
  }
  if (!joined && !open.empty() && (open.size() > 1 || part.definition->ports_as_named)) open = {{id, {}}};
  ends.insert(ends.end(), open.begin(), open.end());
}

// Parts that one group of joined ports holds together.
Groups groups_of(const Circuit& circuit) {
  Groups groups(circuit.parts.size());
  for (const Node& node : circuit.nodes)
    for (const PortId port : node.ports) groups.join(circuit.ports[node.ports.front()].part.index, circuit.ports[port].part.index);
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
  std::vector<OpenEnd> ends;
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i)
    if (!building.texts[i].silent) find_open_ends_of(building, {i}, ends);
  if (ends.size() > 1) report_open_ends(building, ends);
  else if (ends.size() == 1) ends.front().port ? report_open_port(building, ends.front()) : report_loose_part(building, ends.front());
  // What the missing run would have brought oil to is not told again.
  building.lost_ends = !ends.empty();
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
