// Pressure-compensated flow control: q = set while at least `least drop` remains across it, below that an orifice of
// that drop at the set flow (common practice; the compensator is then wide open). Three-way: what the inlet brings
// beyond the set flow opens the way to `excess` as soon as the metering drop is reached.
#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {

void state(const RegulatedFlow& law, const Equations& eq) {
  const Resistance orifice = square_through(law.least_drop, law.set);
  const double flow = eq.local[0], stiffness = law.least_drop / law.set;
  const double wide = orifice.drop(flow, eq.mu) - eq.pressure[0] + eq.pressure[1];
  const Smooth limit = larger(wide, stiffness * (flow - law.set), eq.mu);
  eq.residual[0] = limit.value;
  eq.by_pressure(0, 0) = -limit.by_a;
  eq.by_pressure(0, 1) = limit.by_a;
  eq.by_local(0, 0) = limit.by_a * orifice.slope(flow, eq.mu) + limit.by_b * stiffness;
  if (eq.locals < 2) return;

  constexpr double spill_slope = 1e-3;  // bar per L/min: the by-pass spool is fully moved within hundredths of a bar
  const double excess = eq.local[1];
  const double spill_drop = spill_slope * excess - eq.pressure[0] + eq.pressure[2];
  const double unmet = law.least_drop + spill_slope * excess - eq.pressure[0] + eq.pressure[1];
  const Smooth by = larger(spill_drop, unmet, eq.mu);
  const Smooth pair = either_or(excess, by.value, eq.mu);
  eq.residual[1] = pair.value;
  eq.by_pressure(1, 0) = -pair.by_b;
  eq.by_pressure(1, 1) = pair.by_b * by.by_b;
  eq.by_pressure(1, 2) = pair.by_b * by.by_a;
  eq.by_local(1, 1) = pair.by_a + pair.by_b * spill_slope;
}

}  // namespace ferrule::hydraulics
