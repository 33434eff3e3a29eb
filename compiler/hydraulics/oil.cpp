// The oil of a reservoir: as the text states it, else by its grade, else the default of the assumptions table.
#include <charconv>
#include <utility>

#include "compiler/build/groups.hpp"
#include "compiler/hydraulics/solve.hpp"
#include "compiler/hydraulics/viscosity.hpp"

namespace ferrule {
namespace {

const FactValue* named(const Fluid& fluid, std::string_view name) {
  for (const FactValue& fact : fluid.facts)
    if (fact.name == name) return &fact;
  return nullptr;
}

std::optional<double> number(const Fluid& fluid, std::string_view name) {
  const FactValue* fact = named(fluid, name);
  return fact && !fact->numbers.empty() ? std::optional(fact->numbers.front().si) : std::nullopt;
}

const Fluid* fluid_of(const Circuit& circuit, PartId reservoir) {
  if (circuit.fluids.empty()) return nullptr;
  const FactValue* named = reservoir ? circuit.parts[reservoir].fact("fluid") : nullptr;
  if (named)
    for (const Fluid& fluid : circuit.fluids)
      if (fluid.tag == named->word) return &fluid;
  return &circuit.fluids.front();
}

// Grades whose names are rounded; from VG 10 on the name is the mid viscosity (ISO 3448).
constexpr std::pair<double, double> thin_grades[] = {{2, 2.2}, {3, 3.2}, {5, 4.6}, {7, 6.8}};

// "ISO VG 46", "VG 32", "46": the mid viscosity in mm2/s at 40 degC (ISO 3448).
std::optional<double> mid_viscosity(const Fluid& fluid) {
  const FactValue* grade = named(fluid, "grade");
  if (!grade) return std::nullopt;
  const std::string& word = grade->word;
  const std::size_t digit = word.find_first_of("0123456789");
  if (digit == word.npos) return std::nullopt;
  double value = 0;
  std::from_chars(word.data() + digit, word.data() + word.size(), value);
  for (const auto& [name, middle] : thin_grades)
    if (value == name) return middle;
  return value > 1 ? std::optional(value) : std::nullopt;
}

}  // namespace

PartId first_reservoir(const Circuit& circuit) {
  for (const Element& element : circuit.elements)
    if (element.kind == ElementKind::reservoir) return element.part;
  return {};
}

// Viscosity: as stated; else by grade, index (100 where none is stated) and temperature (50 degC where none is); else the
// default. Water-based and synthetic fluids state theirs.
Oil oil_of(const Circuit& circuit, PartId reservoir) {
  Oil oil;
  const Fluid* fluid = fluid_of(circuit, reservoir);
  if (!fluid) return oil;
  const auto viscosity = number(*fluid, "viscosity"), density = number(*fluid, "density");
  const auto grade = mid_viscosity(*fluid);
  if (density) oil.density = *density;
  if (viscosity) {
    oil.kinematic_viscosity = *viscosity;
  } else if (grade) {
    const double celsius = number(*fluid, "temperature").value_or(323.15) - 273.15;
    oil.kinematic_viscosity = 1e-6 * hydraulics::viscosity_at(*grade, number(*fluid, "index").value_or(100), celsius);
  }
  oil.by_default = !viscosity && !grade;
  return oil;
}

std::vector<Oil> oils_of(const Circuit& circuit) {
  const Oil first = oil_of(circuit, first_reservoir(circuit));
  if (circuit.fluids.size() < 2) return {first};
  Groups groups = nodes_of_one_oil(circuit);
  std::vector<Oil> by_group(circuit.nodes.size(), first);
  for (const Part& part : circuit.parts)
    if (part.port_count > 0 && part.fact("fluid") && part.definition->role("tank"))
      by_group[groups.root(circuit.ports.rows[part.first_port].node.index)] = oil_of(circuit, circuit.parts.id_of(part));
  std::vector<Oil> oils;
  for (std::uint32_t node = 0; node < circuit.nodes.size(); ++node) oils.push_back(by_group[groups.root(node)]);
  return oils;
}

}  // namespace ferrule
