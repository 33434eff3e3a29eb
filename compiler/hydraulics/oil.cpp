// The oil of a reservoir: as the text states it, else by its grade, else the default of the assumptions table.
#include <cmath>

#include "compiler/hydraulics/solve.hpp"

namespace ferrule {
namespace {

const FactValue* fact_of(const Fluid& fluid, std::string_view name) {
  for (const FactValue& fact : fluid.facts)
    if (fact.name == name && !fact.numbers.empty()) return &fact;
  return nullptr;
}

const Fluid* fluid_of(const Circuit& circuit, PartId reservoir) {
  if (circuit.fluids.empty()) return nullptr;
  const FactValue* named = reservoir ? circuit.parts[reservoir].fact("fluid") : nullptr;
  if (named)
    for (const Fluid& fluid : circuit.fluids)
      if (fluid.tag == named->word) return &fluid;
  return &circuit.fluids.front();
}

}  // namespace

Oil oil_of(const Circuit& circuit, PartId reservoir) {
  Oil oil;
  const Fluid* fluid = fluid_of(circuit, reservoir);
  if (!fluid) return oil;
  const FactValue* viscosity = fact_of(*fluid, "viscosity");
  const FactValue* density = fact_of(*fluid, "density");
  if (viscosity) oil.kinematic_viscosity = viscosity->numbers.front().si;
  if (density) oil.density = density->numbers.front().si;
  oil.by_default = !viscosity || !density;
  return oil;
}

}  // namespace ferrule
