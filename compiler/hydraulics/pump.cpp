// Pump: delivery = displacement x speed x volumetric efficiency while its control leaves it at full stroke (ISO 4391).
// Leakage is what is left of the theoretical flow. Pressure compensator: full stroke up to one pressure, straight to
// zero at another. Load sensing: outlet = sensed + margin up to the cut-off. Power: pressure x flow up to its limit.
#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {
namespace {

struct Control {
  double pressure;   // the outlet pressure at which the stroke would be nil
  double by_sensed;
};

Control control_of(const Pump& law, const Equations& eq) {
  if (!law.load_sensing) return {law.ceiling, 0};
  double sensed = 0;
  for (int t = 0; t < eq.terminals; ++t) sensed += law.weight[t] * eq.pressure[t];
  const Smooth lower = smaller(sensed + law.margin, law.ceiling, eq.mu);
  return {lower.value, lower.by_a};
}

}  // namespace

void state(const Pump& law, const Equations& eq) {
  const double delivery = eq.local[0], outlet = eq.pressure[0];
  const Control control = control_of(law, eq);
  Smooth limit = larger(delivery - law.full, outlet + law.droop * delivery - control.pressure, eq.mu);
  double by_delivery = limit.by_a + limit.by_b * law.droop, by_outlet = limit.by_b, by_sensed = -limit.by_b * control.by_sensed;
  if (law.power > 0) {
    const Smooth least = larger(outlet, 1, eq.mu);  // below 1 bar no power limit is reached
    const Smooth power = larger(limit.value, delivery - law.power / least.value, eq.mu);
    by_delivery = power.by_a * by_delivery + power.by_b;
    by_outlet = power.by_a * by_outlet + power.by_b * law.power / (least.value * least.value) * least.by_a;
    by_sensed *= power.by_a;
    limit.value = power.value;
  }
  const Smooth pair = either_or(delivery, limit.value, eq.mu);
  eq.residual[0] = pair.value;
  if (law.load_sensing)
    for (int t = 0; t < eq.terminals; ++t) eq.by_pressure(0, t) = pair.by_b * by_sensed * law.weight[t];
  eq.by_pressure(0, 0) += pair.by_b * by_outlet;
  eq.by_local(0, 0) = pair.by_a + pair.by_b * by_delivery;
  eq.residual[1] = eq.local[1] - law.leakage;
  eq.by_local(1, 1) = 1;
}

}  // namespace ferrule::hydraulics
