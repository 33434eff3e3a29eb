#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

constexpr std::size_t few_ports = 16;  // up to here a look through all is faster than a map

struct NamedPort {
  std::string name;
  PortUse use;
  Span span;
};

// The ports that rows name, in the order of the text: by their paths and by pilots that shift them.
std::vector<NamedPort> ports_of_rows(const Part& part) {
  std::vector<NamedPort> ports;
  const auto add = [&](const std::string& name, PortUse use, Span span) {
    const bool known = std::any_of(ports.begin(), ports.end(), [&](const NamedPort& port) { return port.name == name; });
    if (!known) ports.push_back({name, use, span});
  };
  for (const PositionRow& row : part.positions)
    for (const RowPath& path : row.paths)
      for (const std::string& port : path.ports) add(port, PortUse::main, path.span);
  for (const PositionRow& row : part.positions)
    for (const Actuation& by : row.by)
      if (!by.tag.empty() && by.means.find("pilot") != std::string::npos) add(by.tag, PortUse::pilot, by.span);
  return ports;
}

bool inside_uses(const Definition& definition, const std::string& port) {
  return std::any_of(definition.elements.begin(), definition.elements.end(), [&](const ElementSpec& element) {
    return std::any_of(element.ends.begin(), element.ends.end(), [&](const EndRef& end) { return end.name == port; });
  });
}

void make_row_ports(Building& building, PartId id) {
  const Part& part = building.circuit.parts[id];
  const std::vector<NamedPort> named = ports_of_rows(part);
  const auto is_named = [&](const std::string& name) {
    return std::any_of(named.begin(), named.end(), [&](const NamedPort& port) { return port.name == name; });
  };
  // The order of the definition first, so that tables read P A B T whatever row names them first.
  for (const PortSpec& spec : part.definition->ports)
    if (is_named(spec.name) || spec.may_stay_open || inside_uses(*part.definition, spec.name)) port_draft(building, id, spec.name);
  for (const NamedPort& port : named) {
    if (existing_port(building, id, port.name) < 0) building.ports[port_draft(building, id, port.name)].use = port.use;
    building.ports[static_cast<std::size_t>(existing_port(building, id, port.name))].span = port.span;
  }
}

void check_row_ports(Building& building, PartId id) {
  const Part& part = building.circuit.parts[id];
  for (const NamedPort& port : ports_of_rows(part)) {
    if (existing_port(building, id, port.name) >= 0) continue;
    building.reading.report(fault::unknown_port, port.span, fmt::format("{} has no port `{}`", part.definition->name, port.name),
                            "its ports are " + all_ports(*part.definition));
    building.text(id).silent = true;
  }
}

}  // namespace

std::int64_t existing_port(const Building& building, PartId part, std::string_view name) {
  const PartText& text = building.texts[part.index];
  if (text.ports.size() > few_ports) {
    const auto found = text.ports_by_name.find(name);
    return found == text.ports_by_name.end() ? -1 : std::int64_t{found->second};
  }
  for (const std::uint32_t port : text.ports)
    if (building.ports[port].name == name) return port;
  return -1;
}

std::uint32_t port_draft(Building& building, PartId part, std::string_view name) {
  const std::int64_t found = existing_port(building, part, name);
  if (found >= 0) return static_cast<std::uint32_t>(found);
  Port port;
  port.part = part;
  port.name = name;
  port.spec = building.circuit.parts[part].definition->port(name);
  if (port.spec) port.use = port.spec->use;
  const auto index = static_cast<std::uint32_t>(building.ports.size());
  building.ports.push_back(std::move(port));
  building.joined_to.push_back(index);
  // All connections of a reservoir are one node.
  std::vector<std::uint32_t>& own = building.text(part).ports;
  if (building.circuit.parts[part].definition->ports_as_named && !own.empty()) join(building, own.front(), index);
  own.push_back(index);
  if (own.size() == few_ports + 1)
    for (const std::uint32_t each : own) building.text(part).ports_by_name.emplace(building.ports[each].name, each);
  else if (own.size() > few_ports) building.text(part).ports_by_name.emplace(building.ports[index].name, index);
  return index;
}

std::uint32_t root_of(Building& building, std::uint32_t port) {
  std::vector<std::uint32_t>& to = building.joined_to;
  while (to[port] != port) port = to[port] = to[to[port]];
  return port;
}

void join(Building& building, std::uint32_t a, std::uint32_t b) {
  const std::uint32_t first = root_of(building, a), second = root_of(building, b);
  building.joined_to[std::max(first, second)] = std::min(first, second);
}

void make_ports(Building& building) {
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i) {
    const Definition& definition = *building.circuit.parts.rows[i].definition;
    if (definition.ports_from_rows) {
      make_row_ports(building, {i});
      continue;
    }
    for (const PortSpec& spec : definition.ports) port_draft(building, {i}, spec.name);
    if (!definition.rows.empty() || !building.circuit.parts.rows[i].positions.empty()) check_row_ports(building, {i});
  }
}

void settle_nodes(Building& building) {
  Circuit& circuit = building.circuit;
  // A reservoir that no run reaches still has its node.
  for (std::uint32_t i = 0; i < circuit.parts.size(); ++i)
    if (circuit.parts.rows[i].definition->ports_as_named && building.texts[i].ports.empty()) port_draft(building, {i}, "1");
  std::vector<NodeId> node_of(building.ports.size());
  std::vector<PortId> final_of(building.ports.size());
  for (std::uint32_t i = 0; i < circuit.parts.size(); ++i) {
    circuit.parts.rows[i].first_port = static_cast<std::uint32_t>(circuit.ports.size());
    circuit.parts.rows[i].port_count = static_cast<std::uint32_t>(building.texts[i].ports.size());
    for (const std::uint32_t draft : building.texts[i].ports) {
      NodeId& node = node_of[root_of(building, draft)];
      if (!node) node = circuit.nodes.add({});
      building.ports[draft].node = node;
      final_of[draft] = circuit.ports.add(building.ports[draft]);
      circuit.nodes[node].ports.push_back(final_of[draft]);
    }
  }
  for (Run& run : circuit.runs)
    for (RunStep& step : run.steps)
      if (step.port) step.port = final_of[step.port.index];
}

}  // namespace ferrule
