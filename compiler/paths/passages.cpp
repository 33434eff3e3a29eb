// Which ways an element opens, and how far each can be relied on.
#include <algorithm>

#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

using enum ElementKind;

// Reliance of the way from the first end to the second and back; none: no way.
struct Ways {
  ElementKind kind;
  std::optional<Reliance> forward, backward;
};
constexpr Ways table[] = {
    {passage, Reliance::sure, Reliance::sure},
    {pipe, Reliance::sure, Reliance::sure},
    {restriction, Reliance::sure, Reliance::sure},
    {one_way, Reliance::sure, std::nullopt},
    {piloted_one_way, Reliance::sure, Reliance::by_pressure},
    {pressure_path, Reliance::by_pressure, std::nullopt},
    // A reducing spool shuts when its outlet is pushed above the setting; the usual valve has a check for the way back.
    {reducing_path, Reliance::may_close, Reliance::by_pressure},
    {regulated_flow, Reliance::may_close, Reliance::may_close},
    {flow_fuse, Reliance::may_close, Reliance::sure},
};

const Ways* ways_of(ElementKind kind) {
  const auto found = std::find_if(std::begin(table), std::end(table), [&](const Ways& row) { return row.kind == kind; });
  return found == std::end(table) ? nullptr : found;
}

bool ends_at(const Circuit& circuit, const Element& element, std::size_t end, const std::string& port_name) {
  const PortId port = circuit.port_of(element.part, port_name);
  return port && end < element.ends.size() && circuit.ports[port].node == element.ends[end];
}

// `role limits P > T`; several pairs may stand in one role (`blocks-backflow V1 > C1 V2 > C2`).
bool has_role_between(const Circuit& circuit, const Element& element, std::string_view name) {
  const Definition* definition = circuit.parts[element.part].definition;
  const Role* role = definition ? definition->role(name) : nullptr;
  for (std::size_t pair = 0; role && pair + 1 < role->ports.size(); pair += 2)
    if (ends_at(circuit, element, 0, role->ports[pair]) && ends_at(circuit, element, 1, role->ports[pair + 1])) return true;
  return false;
}

// A relief that a signal may set to anything protects nothing, unless a stop in the valve limits the signal.
bool is_set_without_limit(const Part& part) {
  const auto& facts = part.definition->facts;
  const bool commanded = std::any_of(facts.begin(), facts.end(), [](const FactSpec& fact) {
    return fact.command && fact.dimension == dimension::pressure;
  });
  return commanded && !part.has("mechanical-maximum");
}

bool is_limiter(const Circuit& circuit, const Element& element) {
  return element.kind == pressure_path && !element.has("remote") && has_role_between(circuit, element, "limits");
}

// A clogged element passes nothing; a strainer of 60 um or coarser counts as a passage (common practice).
bool may_clog(const Circuit& circuit, const Element& element) {
  return has_role_between(circuit, element, "filter") && circuit.parts[element.part].si("rating").value_or(0) < 60e-6;
}

bool may_be_shut(const Circuit& circuit, const Element& element) {
  if (element.has("adjustable")) return true;
  const bool shut_off = element.has("shut-off") || element.has("shut");
  return shut_off && (element.has("shut") || !circuit.parts[element.part].has("locked-open"));
}

Reliance reliance_of(const Circuit& circuit, const Element& element, Reliance usual) {
  if (element.kind == restriction && (may_be_shut(circuit, element) || may_clog(circuit, element))) return Reliance::may_close;
  if (element.kind == piloted_one_way && element.has("closing")) return Reliance::may_close;
  if (is_normally_open(element)) return Reliance::may_close;
  if (is_limiter(circuit, element) && !is_set_without_limit(circuit.parts[element.part])) usual = Reliance::sure;
  return usual == Reliance::sure && element.position >= 0 ? Reliance::in_position : usual;
}

class Passages {
 public:
  explicit Passages(const Circuit& circuit) : circuit_(circuit) {}

  void add(NodeId from, NodeId to, ElementId id, Reliance reliance, bool limiter = false) {
    if (!from || !to || from == to) return;
    found.push_back({from, to, id, reliance, circuit_.elements[id].position, limiter});
  }

  void add_pair(ElementId id, const Ways& ways) {
    const Element& element = circuit_.elements[id];
    const NodeId a = element.ends[0], b = element.ends[1];
    if (ways.forward) add(a, b, id, reliance_of(circuit_, element, *ways.forward), is_limiter(circuit_, element));
    // A metered path of a valve row has its compensator ahead of it: it lets nothing back.
    const bool only_forward = (element.kind == regulated_flow && element.position >= 0) ||
                              (element.kind == piloted_one_way && element.has("closing"));
    if (ways.backward && !only_forward) add(b, a, id, reliance_of(circuit_, element, *ways.backward));
  }

  // All ends of a drilling are joined with all others.
  void add_junction(ElementId id) {
    const Element& element = circuit_.elements[id];
    const Reliance reliance = reliance_of(circuit_, element, Reliance::sure);
    for (NodeId from : element.ends)
      for (NodeId to : element.ends) add(from, to, id, reliance);
  }

  // The ball of a shuttle follows the pressures, so neither side can be relied on.
  void add_selector(ElementId id) {
    const std::vector<NodeId>& ends = circuit_.elements[id].ends;
    for (std::size_t side = 0; side + 1 < ends.size(); ++side) {
      add(ends[side], ends.back(), id, Reliance::by_pressure);
      add(ends.back(), ends[side], id, Reliance::by_pressure);
    }
  }

  std::vector<Passage> found;

 private:
  const Circuit& circuit_;
};

// Displacement elements on one free shaft let oil through (gear divider); driven or driving ones never count as a way.
std::vector<bool> parts_with_free_shaft(const Circuit& circuit) {
  std::vector<bool> free(circuit.parts.size());
  for (const Element& element : circuit.elements)
    if (element.kind == shared_shaft) free[element.part.index] = true;
  return free;
}

void add_element(Passages& passages, const Circuit& circuit, ElementId id, const std::vector<bool>& free_shaft) {
  const Element& element = circuit.elements[id];
  if (element.kind == passage) return passages.add_junction(id);
  if (element.kind == selector) return passages.add_selector(id);
  if (element.ends.size() < 2) return;
  if (element.kind == displacement && free_shaft[element.part.index])
    return passages.add_pair(id, {displacement, Reliance::may_close, Reliance::may_close});
  const Ways* ways = ways_of(element.kind);
  if (!ways) return;
  passages.add_pair(id, *ways);
  if (element.kind == regulated_flow && element.ends.size() > 2)
    passages.add(element.ends[0], element.ends[2], id, Reliance::by_pressure);
}

}  // namespace

PassageGraph passages_of(const Circuit& circuit) {
  Passages passages(circuit);
  const std::vector<bool> free_shaft = parts_with_free_shaft(circuit);
  for (std::uint32_t index = 0; index < circuit.elements.size(); ++index)
    add_element(passages, circuit, {index}, free_shaft);

  PassageGraph graph;
  graph.passages = std::move(passages.found);
  graph.leaving.resize(circuit.nodes.size());
  graph.arriving.resize(circuit.nodes.size());
  graph.tank.resize(circuit.nodes.size());
  for (NodeId node : tank_nodes(circuit)) graph.tank[node.index] = true;
  for (std::uint32_t index = 0; index < graph.passages.size(); ++index) {
    graph.leaving[graph.passages[index].from.index].push_back(index);
    graph.arriving[graph.passages[index].to.index].push_back(index);
  }
  return graph;
}

std::vector<NodeId> tank_nodes(const Circuit& circuit) {
  std::vector<NodeId> nodes;
  for (const Element& element : circuit.elements)
    if (element.kind == reservoir)
      for (NodeId end : element.ends)
        if (end && std::find(nodes.begin(), nodes.end(), end) == nodes.end()) nodes.push_back(end);
  return nodes;
}

Way Reached::way_to(NodeId node, const PassageGraph& graph) const {
  Way way;
  for (std::int32_t index = by[node.index]; index >= 0; index = by[graph.passages[index].from.index])
    way.passages.push_back(static_cast<std::uint32_t>(index));
  std::reverse(way.passages.begin(), way.passages.end());
  return way;
}

}  // namespace ferrule
