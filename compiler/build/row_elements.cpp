// The paths of a directional valve's positions, each an element that exists in its position only.
#include <algorithm>

#include "compiler/build/part_elements.hpp"
#include "compiler/language/rows.hpp"
#include "compiler/language/facts.hpp"

namespace ferrule {
namespace {

// The fact said of this path, else of the whole valve.
const FactValue* fact_of_path(const Part& part, std::string_view name, const std::string& path) {
  const FactValue* whole = nullptr;
  for (const FactValue& fact : part.facts) {
    if (fact.name != name) continue;
    if (fact.belongs_to.empty()) whole = &fact;
    else if (same_path(fact.belongs_to, path)) return &fact;
  }
  return whole;
}

struct PathMaking {
  Building& building;
  PartId id;
  const Part& part;
  const RowPath& path;
  std::string name;      // "P>A"
  std::int16_t position;
};

Element element_of(const PathMaking& in, ElementKind kind, NodeId from, NodeId to) {
  Element element;
  element.kind = kind;
  element.part = in.id;
  element.name = in.name;
  element.position = in.position;
  element.ends = {from, to};
  return element;
}

void set_drop(const PathMaking& in, Element& element, double share) {
  const FactValue* drop = fact_of_path(in.part, "drop", in.name);
  if (!drop || drop->numbers.empty()) return;
  element.parameters.push_back({Parameter::drop, drop->numbers[0].si * share, drop->origin});
  if (drop->numbers.size() > 1) element.parameters.push_back({Parameter::drop_flow, drop->numbers[1].si, drop->origin});
}

void set_plain(const PathMaking& in, Element& element, Parameter id, std::string_view fact_name) {
  const FactValue* fact = fact_of_path(in.part, fact_name, in.name);
  if (fact && !fact->numbers.empty()) element.parameters.push_back({id, fact->numbers[0].si, fact->origin});
}

NodeId node_of(const PathMaking& in, const std::string& port) { return node_named(in.building, in.id, port); }

// Without a stated drop a path loses nothing: so it is a passage.
ElementKind open_kind(const PathMaking& in) {
  return fact_of_path(in.part, "drop", in.name) ? ElementKind::restriction : ElementKind::passage;
}

// A compensator of the valve's own keeps the flow of a metered path; without one it is an adjustable restriction.
Element metered(const PathMaking& in) {
  const bool compensated = fact_of_path(in.part, "least-drop", in.name) != nullptr;
  Element element = element_of(in, compensated ? ElementKind::regulated_flow : ElementKind::restriction, node_of(in, in.path.ports[0]),
                               node_of(in, in.path.ports[1]));
  if (compensated) {
    set_plain(in, element, Parameter::flow, "flow");
    set_plain(in, element, Parameter::least_drop, "least-drop");
  } else {
    set_drop(in, element, 1);
    element.flags.push_back("adjustable");
  }
  return element;
}

Element two_ports(const PathMaking& in) {
  if (in.path.metered) return metered(in);
  const NodeId from = node_of(in, in.path.ports[0]), to = node_of(in, in.path.ports[1]);
  if (in.path.kind != RowPath::Kind::one_way) {
    Element element = element_of(in, in.path.kind == RowPath::Kind::restricted ? ElementKind::restriction : open_kind(in), from, to);
    set_drop(in, element, 1);
    return element;
  }
  Element element = element_of(in, ElementKind::one_way, from, to);
  set_plain(in, element, Parameter::cracking, "cracking");
  set_drop(in, element, 1);
  return element;
}

// Ports that meet in one point: the stated drop is from port to port, so each leg has half of it.
void add_star(const PathMaking& in) {
  const NodeId middle = node_named(in.building, in.id, in.part.positions[static_cast<std::size_t>(in.position)].name + ":" + in.name);
  for (const std::string& port : in.path.ports) {
    Element element = element_of(in, open_kind(in), node_of(in, port), middle);
    element.name += ":" + port;
    set_drop(in, element, 0.5);
    in.building.circuit.elements.add(std::move(element));
  }
}

void add_path(Building& building, PartId id, const RowPath& path, std::int16_t position) {
  const PathMaking in{building, id, building.circuit.parts[id], path, name_of(path), position};
  if (path.ports.size() > 2 && open_kind(in) == ElementKind::restriction) return add_star(in);
  if (path.ports.size() == 2) return (void)building.circuit.elements.add(two_ports(in));
  Element element = element_of(in, ElementKind::passage, {}, {});
  element.ends.clear();
  for (const std::string& port : path.ports) element.ends.push_back(node_of(in, port));
  building.circuit.elements.add(std::move(element));
}

}  // namespace

void add_row_elements(Building& building, PartId id) {
  const std::vector<PositionRow>& rows = building.circuit.parts[id].positions;
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (const RowPath& path : rows[i].paths) add_path(building, id, path, static_cast<std::int16_t>(i));
}

}  // namespace ferrule
