#include "compiler/build/resolve.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

const Instance* instance_of(const Building& building, std::string_view word, std::string& rest) {
  for (std::size_t end = word.rfind('.'); end != std::string_view::npos && end > 0; end = word.rfind('.', end - 1)) {
    const auto found = building.instances.find(word.substr(0, end));
    if (found == building.instances.end()) continue;
    rest = word.substr(end + 1);
    return &found->second;
  }
  return nullptr;
}

std::vector<std::string> inside_port_names(const Definition& definition) {
  std::vector<std::string> names;
  for (const PortOfInside& port : definition.ports_of_inside) names.push_back(port.name);
  return names;
}

Found resolve_in_instance(Building& building, const Instance& instance, const std::string& port, Span span) {
  for (const PortOfInside& inside : instance.definition->ports_of_inside)
    if (inside.name == port) return building.told.contains(inside.span.begin) ? Found{} : resolve(building, instance.prefix, inside.tag + "." + inside.port, span);
  const std::vector<std::string> names = inside_port_names(*instance.definition);
  building.reading.report(fault::unknown_port, span, fmt::format("the assembly {} has no port `{}`", instance.definition->name, port),
                          write_instead(port, names, names.empty() ? "name a part inside it" : "its ports are " + listed(names, "and")));
  return {};
}

// `2A1.1` may be port 1 of `2A1` or the part `2A1.1`: with both declared neither is taken.
bool is_ambiguous(Building& building, const std::string& word, const Dotted& longest, Span span) {
  const std::string& tag = building.circuit.parts[longest.part].tag;
  for (std::size_t end = tag.rfind('.'); end != std::string::npos && end > 0; end = tag.rfind('.', end - 1)) {
    const PartId shorter = building.circuit.part_named(word.substr(0, end));
    if (!shorter || existing_port(building, shorter, word.substr(end + 1)) < 0) continue;
    building.reading.report(fault::ambiguous_name, span, fmt::format("`{}` is a port of `{}` and also begins with the tag `{}`", word,
                                                                     word.substr(0, end), tag), "give one of the two parts another tag");
    return true;
  }
  return false;
}

std::string tag_in(const std::string& word) {
  const std::size_t dot = word.rfind('.');
  return dot == std::string::npos ? word : word.substr(0, dot);
}

bool leads_both_ways(ElementKind kind) {
  return kind == ElementKind::passage || kind == ElementKind::pipe || kind == ElementKind::restriction || kind == ElementKind::flow_fuse ||
         kind == ElementKind::piloted_one_way;
}

using Ways = std::vector<std::pair<std::string, std::string>>;

void add_element_ways(const ElementSpec& element, Ways& ways) {
  for (std::size_t i = 1; i < element.ends.size(); ++i) {
    const std::string &from = element.ends[0].name, &to = element.ends[i].name;
    ways.emplace_back(from, to);
    if (leads_both_ways(element.kind)) ways.emplace_back(to, from);
  }
}

void add_row_ways(const PositionRow& row, Ways& ways) {
  for (const RowPath& path : row.paths)
    for (std::size_t i = 1; i < path.ports.size(); ++i) {
      ways.emplace_back(path.ports[0], path.ports[i]);
      if (path.kind != RowPath::Kind::one_way) ways.emplace_back(path.ports[i], path.ports[0]);
    }
}

// `0V1.t` can only mean `0V1.T`; a port name has so few letters that no other nearness tells.
std::string port_instead(const Building& building, PartId part, const std::string& name, const std::vector<std::string>& names) {
  for (const std::string& known : names)
    if (distance_between(name, known) == 0) return fmt::format("write `{}.{}`", building.circuit.parts[part].tag, known);
  return "its ports are " + port_names(building, part);
}

}  // namespace

Found resolve(Building& building, const std::string& prefix, const std::string& word, Span span) {
  const std::string full = prefix + word;
  const Dotted split = split_at_tag(building.circuit, full);
  if (!split.part) {
    std::string rest;
    if (const Instance* instance = instance_of(building, full, rest)) return resolve_in_instance(building, *instance, rest, span);
    building.reading.unknown_tags.push_back({prefix + tag_in(word), span});
    return {};
  }
  if (is_ambiguous(building, full, split, span)) return {};
  if (split.rest.empty()) return {split.part, -1, true};
  return {split.part, port_named(building, split.part, split.rest, span), false};
}

std::int64_t port_named(Building& building, PartId part, const std::string& name, Span span) {
  const std::int64_t found = existing_port(building, part, name);
  if (found >= 0) return found;
  const Part& owner = building.circuit.parts[part];
  const bool any = owner.definition->ports_as_named || owner.definition->unclear || owner.definition == &unknown_definition() || building.text(part).rows_unclear;
  if (any) return port_draft(building, part, name);
  std::vector<std::string> names;
  for (const std::uint32_t port : building.texts[part.index].ports) names.push_back(building.ports[port].name);
  building.reading.report(fault::unknown_port, span, fmt::format("`{}` has no port `{}`", owner.tag, name),
                          names.empty() ? fmt::format("{} has no ports", owner.definition->name) : port_instead(building, part, name, names)).subject = owner.tag;
  building.text(part).silent = true;
  return -1;
}

std::string port_names(const Building& building, PartId part) {
  std::string text;
  for (const std::uint32_t index : building.texts[part.index].ports) {
    const Port& port = building.ports[index];
    if (!text.empty()) text += ", ";
    text += "`" + port.name + "`";
    if (port.spec && !port.spec->text.empty()) text += " (" + port.spec->text + ")";
  }
  return text;
}

std::string inlet_of(const Building& building, PartId part) {
  const Definition& definition = *building.circuit.parts[part].definition;
  for (const std::string_view role : {"limits", "unloads"})
    if (const Role* found = definition.role(role); found && !found->ports.empty()) return found->ports.front();
  if (!definition.through.empty()) return definition.through.front().from;
  const std::vector<std::uint32_t>& ports = building.texts[part.index].ports;
  return ports.empty() ? std::string("P") : building.ports[ports.front()].name;
}

std::string new_connection(const Building& building, PartId part) {
  std::size_t number = building.texts[part.index].ports.size() + 1;
  while (existing_port(building, part, std::to_string(number)) >= 0) ++number;
  return std::to_string(number);
}

bool has_way(const Building& building, PartId part, const std::string& from, const std::string& to) {
  Ways ways;
  for (const ElementSpec& element : building.circuit.parts[part].definition->elements) add_element_ways(element, ways);
  for (const PositionRow& row : building.circuit.parts[part].positions) add_row_ways(row, ways);
  std::vector<std::string> reached{from};
  for (std::size_t next = 0; next < reached.size(); ++next)
    for (const auto& [a, b] : ways)
      if (a == reached[next] && std::find(reached.begin(), reached.end(), b) == reached.end()) reached.push_back(b);
  return std::find(reached.begin(), reached.end(), to) != reached.end();
}

}  // namespace ferrule
