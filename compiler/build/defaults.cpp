#include <algorithm>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/build/part_names.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"

namespace ferrule {
namespace {

// Value of a default; none when a fact that it is computed from is unknown.
std::optional<FactValue> default_value(Building& building, PartId part, const FactSpec& spec) {
  FactValue fact;
  fact.name = spec.name;
  fact.kind = spec.kind;
  fact.span = spec.preset->span;
  fact.origin = Origin::by_default;
  const Term& term = spec.preset->tree->terms[spec.preset->first];
  if (spec.kind == FactKind::choice || spec.kind == FactKind::tag) {
    fact.word = term.text;
    return fact;
  }
  if (spec.kind == FactKind::text) {
    fact.word = unescaped(term);
    return fact;
  }
  PartNames names(building, part);
  const std::string purpose = "the default of `" + spec.name + "`";
  const auto value = evaluate(building.reading, *spec.preset, names, spec.dimension, purpose);
  if (!value) return {};
  fact.numbers = {*value};
  if (spec.preset_at) {
    const auto at = evaluate(building.reading, *spec.preset_at, names, spec.at, purpose);
    if (!at) return {};
    fact.numbers.push_back(*at);
  }
  fact.origin = names.origin();
  return fact;
}

bool complete(Building& building, PartId part, const std::vector<std::string>& set) {
  return std::all_of(set.begin(), set.end(), [&](const std::string& name) {
    return building.circuit.parts[part].has(name) || building.text(part).broken.contains(name);
  });
}

std::string sets_in_words(const Definition& definition) {
  std::string words;
  for (const auto& set : definition.enough) words += (words.empty() ? "" : "; or ") + listed(set, "and");
  return words;
}

void check_enough(Building& building, PartId id) {
  const Part& part = building.circuit.parts[id];
  const Definition& definition = *part.definition;
  if (definition.enough.empty() || building.text(id).silent || building.text(id).unclear) return;
  if (std::any_of(definition.enough.begin(), definition.enough.end(), [&](const auto& set) { return complete(building, id, set); })) return;
  const bool pipe = !definition.sizes.empty();
  Message& message = building.reading.report(fault::facts_missing, part.span,
                                             pipe ? fmt::format("this {} says no size", definition.name)
                                                  : fmt::format("`{}` is not told enough: {} needs {}", part.tag, definition.name, sets_in_words(definition)),
                                             pipe ? "write " + sizes_in_words(definition) : "state them in its block");
  message.subject = part.tag;
}

void check_relation(Building& building, const Part& part, const Relation& relation) {
  const FactValue* smaller = part.fact(relation.smaller);
  const FactValue* larger = part.fact(relation.larger);
  if (!smaller || !larger || smaller->numbers.empty() || larger->numbers.empty()) return;
  if (smaller->numbers[0].si < larger->numbers[0].si) return;
  Message& message = building.reading.report(
      fault::facts_out_of_order, smaller->origin == Origin::given ? smaller->span : larger->span,
      fmt::format("`{}` of {} is {}, but it has to be below `{}`, {}", relation.smaller, part.tag, shown(smaller->numbers[0]), relation.larger,
                  shown(larger->numbers[0])),
      "look at the digits and the units; perhaps they are exchanged");
  message.subject = part.tag;
  if (smaller->origin == Origin::given && larger->origin == Origin::given) message.places.push_back({larger->span, "not above this"});
}

bool is_known_tag(Building& building, const std::string& tag) {
  const Circuit& circuit = building.circuit;
  const auto has = [&](const auto& names) { return std::find(names.begin(), names.end(), tag) != names.end(); };
  if (circuit.by_tag.contains(tag) || building.instances.contains(tag) || has(circuit.tie_names)) return true;
  if (std::any_of(circuit.fluids.begin(), circuit.fluids.end(), [&](const Fluid& fluid) { return fluid.tag == tag; })) return true;
  return building.solenoids.contains(tag);
}

// Kinds of the library with one of these roles, as examples.
std::vector<std::string> kinds_with(Building& building, const std::vector<std::string>& roles) {
  std::vector<std::string> kinds;
  for (const std::string& name : building.library.definition_names()) {
    const Definition* kind = building.library.definition(name);
    const bool fits = kind && std::any_of(roles.begin(), roles.end(), [&](const std::string& role) { return kind->role(role); });
    if (fits && kinds.size() < 3) kinds.push_back(name);
  }
  return kinds;
}

// `driven-by` a valve: the definition says which roles the part has to have.
void check_role(Building& building, const Part& part, const FactValue& fact) {
  const FactSpec* spec = part.definition->fact(fact.name);
  const PartId named = building.circuit.part_named(fact.word);
  if (!spec || spec->choices.empty() || !named) return;
  const Part& other = building.circuit.parts[named];
  const bool fits = std::any_of(spec->choices.begin(), spec->choices.end(), [&](const std::string& role) { return other.definition->role(role); });
  if (fits || other.definition == &unknown_definition()) return;
  const std::vector<std::string> kinds = kinds_with(building, spec->choices);
  Message& message = building.reading.report(fault::part_unfit, fact.span,
                                             fmt::format("`{}` of {} takes a {}, but {} is a {}", fact.name, part.tag,
                                                         fmt::join(spec->choices, " or "), other.tag, other.definition->name),
                                             kinds.empty() ? "name another part" : "name a part such as " + listed(kinds));
  message.subject = part.tag;
  message.places.push_back({other.span, "declared here"});
}

// A tag inside an assembly means the part beside it; the fact then keeps the whole tag.
void settle_tags(Building& building, PartId id) {
  Part& part = building.circuit.parts[id];
  const std::string& prefix = building.text(id).prefix;
  for (FactValue& fact : part.facts) {
    // `carry-over C` names a port of the part itself.
    if (fact.kind != FactKind::tag || fact.origin == Origin::by_default || existing_port(building, id, fact.word) >= 0) continue;
    if (!prefix.empty() && is_known_tag(building, prefix + fact.word)) fact.word = prefix + fact.word;
    else if (!is_known_tag(building, fact.word)) building.reading.unknown_tags.push_back({fact.word, fact.span});
    check_role(building, part, fact);
  }
}

void complete_part(Building& building, PartId part) {
  for (const FactSpec& spec : building.circuit.parts[part].definition->facts)
    if (spec.preset && !building.circuit.parts[part].has(spec.name) && !building.text(part).broken.contains(spec.name))
      complete_fact(building, part, spec);
}

// A value that comes out of others is told at the part: none of its facts need be wrong by itself.
bool derived_within_limits(Building& building, const Part& part, const FactSpec& spec, const FactValue& fact) {
  if (fact.numbers.empty() || fact.origin == Origin::by_default) return true;
  const double value = fact.numbers.front().si;
  const bool low = spec.low && value < *spec.low, high = spec.high && value > *spec.high;
  if (!low && !high) return true;
  building.reading.report(fault::out_of_limits, part.span,
                          fmt::format("`{}` comes out as {}, {} {}, the {} that its definition allows", spec.name, shown(fact.numbers.front()),
                                      low ? "below" : "above", shown({low ? *spec.low : *spec.high, spec.dimension}), low ? "least" : "most"),
                          fmt::format("look at the facts it is computed from: `{}`", building.reading.text(spec.preset->span))).subject = part.tag;
  return false;
}

}  // namespace

void complete_fact(Building& building, PartId part, const FactSpec& spec) {
  const auto place = std::pair(part.index, &spec);
  if (!building.completing.insert(place).second) return;  // needs itself: unknown
  auto fact = default_value(building, part, spec);
  if (!fact) return;
  if (derived_within_limits(building, building.circuit.parts[part], spec, *fact)) building.circuit.parts[part].facts.push_back(std::move(*fact));
  else building.text(part).broken.insert(spec.name);
}

void complete_facts(Building& building) {
  const std::uint32_t count = static_cast<std::uint32_t>(building.circuit.parts.size());
  for (std::uint32_t i = 0; i < count; ++i) settle_tags(building, {i});
  for (std::uint32_t i = 0; i < count; ++i) complete_part(building, {i});
  for (std::uint32_t i = 0; i < count; ++i) {
    check_enough(building, {i});
    for (const Relation& relation : building.circuit.parts.rows[i].definition->always)
      check_relation(building, building.circuit.parts.rows[i], relation);
  }
}

}  // namespace ferrule
