#include "compiler/model/circuit.hpp"

#include <algorithm>

namespace ferrule {

std::string_view word_of(LineFunction function) {
  static constexpr std::string_view words[] = {"pressure", "working", "return", "suction", "drain", "pilot", "mechanical"};
  return words[static_cast<std::size_t>(function)];
}

const FactValue* Part::fact(std::string_view name, std::string_view belongs_to) const {
  const auto found = std::find_if(facts.begin(), facts.end(),
                                  [&](const FactValue& fact) { return fact.name == name && fact.belongs_to == belongs_to; });
  return found == facts.end() ? nullptr : &*found;
}

std::optional<double> Part::si(std::string_view name) const {
  const FactValue* found = fact(name);
  return found && !found->numbers.empty() ? std::optional(found->numbers.front().si) : std::nullopt;
}

PartId Circuit::part_named(std::string_view tag) const {
  const auto found = by_tag.find(tag);
  return found == by_tag.end() ? PartId{} : found->second;
}

PortId Circuit::port_of(PartId part, std::string_view name) const {
  const Part& owner = parts[part];
  for (std::uint32_t i = owner.first_port; i < owner.first_port + owner.port_count; ++i)
    if (ports.rows[i].name == name) return {i};
  return {};
}

std::string Circuit::name_of(PortId port) const { return parts[ports[port].part].tag + "." + ports[port].name; }

}  // namespace ferrule
