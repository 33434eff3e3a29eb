// Elements of every part: the inside of its definition with the values of its facts.
#include <algorithm>

#include "compiler/build/building.hpp"
#include "compiler/build/part_elements.hpp"
#include "compiler/build/part_names.hpp"
#include "compiler/language/values.hpp"

namespace ferrule {
namespace {

const ParameterInfo& info_of(Parameter id) { return parameters()[static_cast<std::size_t>(id)]; }

// The second half of a pair: full-flow at full-flow-flow, drop at drop-flow.
std::optional<Parameter> companion_of(Parameter id) { return parameter_named(std::string(info_of(id).word) + "-flow"); }

void set(Element& element, Parameter id, double si, Origin origin) {
  std::erase_if(element.parameters, [&](const ParameterValue& value) { return value.id == id; });
  element.parameters.push_back({id, si, origin});
}

void set_by_fact(Element& element, Parameter id, const FactValue& fact) {
  if (fact.numbers.empty() || fact.numbers.front().dimension != info_of(id).dimension) return;
  set(element, id, fact.numbers[0].si, fact.origin);
  const auto companion = companion_of(id);
  if (companion && fact.numbers.size() > 1) set(element, *companion, fact.numbers[1].si, fact.origin);
}

// A formula that is one fact's name takes the whole pair of it.
const FactValue* fact_alone(const Part& part, const Formula& formula) {
  return formula.count == 1 ? part.fact(formula.tree->terms[formula.first].text) : nullptr;
}

void set_by_formula(Building& building, PartId id, Element& element, const ElementSpec::Setting& setting) {
  const Part& part = building.circuit.parts[id];
  if (const FactValue* fact = fact_alone(part, *setting.value)) return set_by_fact(element, setting.id, *fact);
  PartNames names(building, id);
  const ParameterInfo& info = info_of(setting.id);
  const auto value = evaluate(building.reading, *setting.value, names, info.dimension, "`" + std::string(info.word) + "`");
  // A number that stands in the definition is the maker's; one that is computed from facts has theirs.
  if (value) set(element, setting.id, value->si, names.origin());
}

void set_parameters(Building& building, PartId id, const ElementSpec& spec, Element& element) {
  const Part& part = building.circuit.parts[id];
  for (const ElementSpec::Setting& setting : spec.settings) {
    if (setting.value) set_by_formula(building, id, element, setting);
    else if (const FactValue* fact = part.fact(info_of(setting.id).word)) set_by_fact(element, setting.id, *fact);
  }
  // `check cracking 0.8 bar`: said of this element, so it wins.
  for (const FactValue& fact : part.facts)
    if (!fact.belongs_to.empty() && fact.belongs_to == spec.name)
      if (const auto parameter = parameter_named(fact.name)) set_by_fact(element, *parameter, fact);
}

// A fact that is stated, a word that was chosen, or a port that is joined (`when L`: the case is drained).
bool is_stated(const Circuit& circuit, PartId id, std::string_view word) {
  const Part& part = circuit.parts[id];
  const PortId port = circuit.port_of(id, word);
  if (port) return circuit.ports[port].end == Port::End::joined;
  return std::any_of(part.facts.begin(), part.facts.end(), [&](const FactValue& fact) {
    return fact.belongs_to.empty() && (fact.name == word || (fact.kind == FactKind::choice && fact.word == word));
  });
}

void set_senses(Building& building, PartId id, const ElementSpec& spec, Element& element) {
  for (const ElementSpec::SenseSpec& sense : spec.senses) {
    double weight = sense.sign;
    if (sense.weight) {
      PartNames names(building, id);
      const auto value = evaluate(building.reading, *sense.weight, names, dimension::none, "the weight of `senses`");
      if (!value) continue;  // without its weight the pilot is unknown: left out, and the fact's absence is told elsewhere
      weight *= value->si;
    }
    element.senses.push_back({node_named(building, id, sense.node), weight});
  }
}

void add_element(Building& building, PartId id, const ElementSpec& spec, std::int16_t position) {
  Element element;
  element.kind = spec.kind;
  element.part = id;
  element.name = spec.name;
  element.position = position;
  for (const EndRef& end : spec.ends) element.ends.push_back(end.name.empty() ? NodeId{} : node_named(building, id, end.name));
  set_senses(building, id, spec, element);
  set_parameters(building, id, spec, element);
  // The definition lives as long as the circuit, so its words may be viewed.
  for (const std::string& flag : spec.flags) element.flags.push_back(flag);
  building.circuit.elements.add(std::move(element));
}

void add_inside(Building& building, PartId id) {
  const Part& part = building.circuit.parts[id];
  for (const ElementSpec& spec : part.definition->elements) {
    if (!holds(building.circuit, id, spec.when)) continue;
    if (spec.positions.empty()) add_element(building, id, spec, -1);
    for (std::size_t i = 0; i < part.positions.size() && !spec.positions.empty(); ++i)
      if (std::find(spec.positions.begin(), spec.positions.end(), part.positions[i].name) != spec.positions.end())
        add_element(building, id, spec, static_cast<std::int16_t>(i));
  }
}

}  // namespace

bool holds(const Circuit& circuit, PartId part, const std::vector<std::string>& when) {
  return std::all_of(when.begin(), when.end(), [&](const std::string& condition) {
    return condition.starts_with("not ") ? !is_stated(circuit, part, condition.substr(4)) : is_stated(circuit, part, condition);
  });
}

NodeId node_named(Building& building, PartId id, std::string_view name) {
  Circuit& circuit = building.circuit;
  if (const PortId port = circuit.port_of(id, name)) return circuit.ports[port].node;
  const Part& part = circuit.parts[id];
  // A reservoir has its connections by whatever name; all are one node.
  if (part.definition->ports_as_named && part.port_count > 0) return circuit.ports.rows[part.first_port].node;
  std::map<std::string, NodeId, std::less<>>& inner = building.text(id).inner_nodes;
  const auto found = inner.find(name);
  if (found != inner.end()) return found->second;
  Node node;
  node.inner_of = id;
  node.name = name;
  return inner.emplace(std::string(name), circuit.nodes.add(std::move(node))).first->second;
}

void make_elements(Building& building) {
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i) {
    add_inside(building, {i});
    add_row_elements(building, {i});
  }
}

}  // namespace ferrule
