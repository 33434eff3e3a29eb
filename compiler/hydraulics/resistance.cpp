#include "compiler/hydraulics/resistance.hpp"

#include <algorithm>
#include <numbers>

#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {

Resistance square_through(double drop, double at_flow) {
  return {drop / (at_flow * at_flow), least_linear, 1e-3 * at_flow};
}

Resistance straight_through(double drop, double at_flow) { return {0, std::max(drop / at_flow, least_linear), 0}; }

Resistance orifice(double diameter, double coefficient, double density, double kinematic_viscosity) {
  const double area = std::numbers::pi / 4 * diameter * diameter;
  const double through = coefficient * area / litre_a_minute;
  // A jet is laminar below a Reynolds number of some tens; a tenth of that keeps the square law where it is measured.
  const double seam_flow = 5 * kinematic_viscosity * std::numbers::pi / 4 * diameter / litre_a_minute;
  return {density / 2 / (through * through) / bar, least_linear, seam_flow};
}

}  // namespace ferrule::hydraulics
