// Heat balance of a reservoir: Q = kA (T - T_ambient) + k_cooler (T - T_coolant) + duty (Newton's law of cooling; common practice).
// Where the text fixes neither temperature nor viscosity, thinner oil changes the losses: the balance is sought anew until
// temperature and viscosity belong together.
#include "compiler/figures/climate.hpp"

#include <algorithm>
#include <cmath>

#include "compiler/figures/totals.hpp"

namespace ferrule::working {
namespace {

constexpr double celsius = 273.15;

const FactValue* named(const std::vector<FactValue>& facts, std::string_view name) {
  for (const FactValue& fact : facts)
    if (fact.name == name && !fact.numbers.empty()) return &fact;
  return nullptr;
}

void put_surfaces(const Circuit& circuit, Climate& climate) {
  if (const FactValue* ambient = named(circuit.facts, "ambient")) climate.ambient = ambient->numbers.front().si;
  climate.coolant = climate.ambient;
  for (const Element& element : circuit.elements) {
    climate.wall += element.value(Parameter::wetted_area).value_or(0) * element.value(Parameter::heat_transfer).value_or(0);
    climate.cooler += element.value(Parameter::duty_per_kelvin).value_or(0);
    climate.duty += element.value(Parameter::duty).value_or(0);
    if (const auto coolant = circuit.parts[element.part].si("coolant-temperature")) climate.coolant = *coolant;
  }
}

double balanced(const Climate& c, double heat) {
  return (heat - c.duty + c.wall * c.ambient + c.cooler * c.coolant) / (c.wall + c.cooler);
}

// The circuit with its oil at this temperature.
Circuit at_temperature(const Circuit& circuit, double kelvin) {
  Circuit warm = circuit;
  for (Fluid& fluid : warm.fluids) {
    FactValue temperature;
    temperature.name = "temperature", temperature.numbers = {{kelvin, dimension::temperature}};
    fluid.facts.push_back(temperature);
  }
  return warm;
}

struct Warm {
  std::optional<double> heat;
  double viscosity = 0;
};

Warm warmed(const Book& book, double kelvin) {
  const Circuit circuit = at_temperature(book.circuit, kelvin);
  const Points points(circuit, book.states);
  const Book warm(circuit, book.states, points);
  const CycleTotal cycle = totals_of(warm);
  Warm out;
  if (cycle.time && std::isfinite(cycle.heat)) out.heat = cycle.heat;
  out.viscosity = oil_of(circuit, first_reservoir(circuit)).kinematic_viscosity;
  return out;
}

// Thinner oil loses less in lines: the steps overshoot little, and a mean of old and new settles in a few rounds.
void follow_viscosity(const Book& book, Climate& climate) {
  double kelvin = std::clamp(*climate.kelvin, 273.15, 393.15);
  for (int round = 0; round < 30; ++round) {
    const Warm warm = warmed(book, kelvin);
    if (!warm.heat) return;
    climate.heat = *warm.heat, climate.kinematic_viscosity = warm.viscosity;
    const double next = balanced(climate, *warm.heat);
    climate.kelvin = next;
    if (std::fabs(next - kelvin) < 1e-3) return;
    kelvin = std::clamp(0.5 * (kelvin + next), 263.15, 423.15);
  }
}

}  // namespace

Climate climate_of(const Book& book) {
  Climate climate;
  put_surfaces(book.circuit, climate);
  const Fluid* fluid = book.circuit.fluids.empty() ? nullptr : &book.circuit.fluids.front();
  climate.fixed = !fluid || named(fluid->facts, "temperature") || named(fluid->facts, "viscosity");
  climate.kinematic_viscosity = oil_of(book.circuit, first_reservoir(book.circuit)).kinematic_viscosity;
  const CycleTotal& cycle = book.cycle();
  climate.heat = cycle.heat;
  if (!cycle.time) climate.why_none = cycle.why_none;
  else if (!std::isfinite(cycle.heat)) climate.why_none = "the heat of a step has no value";
  else if (!(climate.wall + climate.cooler > 0)) climate.why_none = "no wetted area of a reservoir and no cooler is stated: nothing gives off heat";
  else if (balanced(climate, cycle.heat) < std::min(climate.ambient, climate.coolant))
    climate.why_none = "the coolers can take more than the mean heat: the oil stays at what they are set to";
  else climate.kelvin = balanced(climate, cycle.heat);
  if (climate.kelvin && !climate.fixed) follow_viscosity(book, climate);
  return climate;
}

}  // namespace ferrule::working
