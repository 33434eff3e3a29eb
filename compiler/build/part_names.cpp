#include "compiler/build/part_names.hpp"

namespace ferrule {

Meaning PartNames::value_of(PartId part, std::string_view name) {
  const std::size_t dot = name.rfind('.');
  const bool second = dot != std::string_view::npos && name.substr(dot + 1) == "at";  // `drop.at`: the flow of the pair
  const std::string_view fact_name = second ? name.substr(0, dot) : name;
  const auto stated = [&] { return building_.circuit.parts[part].fact(fact_name); };
  const FactSpec* spec = building_.circuit.parts[part].definition->fact(fact_name);
  // A default of this part, or of the other one, may not be there yet; a default that needs itself stays unknown.
  if (!stated() && spec && spec->preset) complete_fact(building_, part, *spec);
  const FactValue* fact = stated();
  if (fact && fact->numbers.size() > (second ? 1u : 0u)) {
    found_ = true;
    leaned_on_default_ = leaned_on_default_ || fact->origin == Origin::by_default;
    return {Meaning::Kind::value, fact->numbers[second ? 1 : 0]};
  }
  return {fact || spec || building_.text(part).broken.contains(std::string(fact_name)) ? Meaning::Kind::silent : Meaning::Kind::none, {}};
}

Meaning PartNames::through(std::string_view tag_fact, std::string_view name) {
  const Part& part = building_.circuit.parts[part_];
  if (!part.definition->fact(tag_fact)) return {};
  const FactValue* fact = part.fact(tag_fact);
  const PartId other = fact ? building_.circuit.part_named(fact->word) : PartId{};
  if (!other) return {Meaning::Kind::silent, {}};
  const Meaning meaning = value_of(other, name);
  return meaning.kind == Meaning::Kind::none ? Meaning{Meaning::Kind::silent, {}} : meaning;
}

Meaning PartNames::find(std::string_view word, Span use) {
  const std::size_t dot = word.find('.');
  Meaning meaning = value_of(part_, word);
  if (meaning.kind == Meaning::Kind::none && dot != std::string_view::npos) meaning = through(word.substr(0, dot), word.substr(dot + 1));
  if (meaning.kind == Meaning::Kind::none && building_.reading.names) meaning = building_.reading.names->find(word, use);
  return meaning;
}

std::vector<std::string> PartNames::known() const {
  std::vector<std::string> names;
  for (const FactSpec& fact : building_.circuit.parts[part_].definition->facts) names.push_back(fact.name);
  return names;
}

}  // namespace ferrule
