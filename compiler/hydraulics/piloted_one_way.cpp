// Pilot-operated check: free forward as any check; backward it opens as far as the pilot overcomes the load side,
// ratio p_X > p_out - p_in (balance of the pilot piston against the poppet; common practice). With `closing` the pilot
// instead holds the forward way shut.
#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double opening_slope = 1e-3;  // bar of pilot surplus per L/min: the poppet lifts within a few hundredths of a bar

double pilot_of(const PilotedOneWay& law, const Equations& eq) {
  double sum = 0;
  for (int t = 0; t < eq.terminals; ++t) sum += law.pilot[t] * eq.pressure[t];
  return sum;
}

}  // namespace

void state(const PilotedOneWay& law, const Equations& eq) {
  const double forward = eq.local[0], pilot = pilot_of(law, eq);
  const double shut_by = law.cracking + law.open.drop(forward, eq.mu) - eq.pressure[0] + eq.pressure[1];
  const Smooth held = law.closing ? larger(shut_by, pilot + opening_slope * forward, eq.mu) : Smooth{shut_by, 1, 0};
  const Smooth pair = either_or(forward, held.value, eq.mu);
  eq.residual[0] = pair.value;
  for (int t = 0; t < eq.terminals; ++t) eq.by_pressure(0, t) = pair.by_b * held.by_b * law.pilot[t];
  eq.by_pressure(0, 0) -= pair.by_b * held.by_a;
  eq.by_pressure(0, 1) += pair.by_b * held.by_a;
  eq.by_local(0, 0) = pair.by_a + pair.by_b * (held.by_a * law.open.slope(forward, eq.mu) + held.by_b * opening_slope);
  if (law.closing) return;

  const double backward = eq.local[1];
  const double wide = law.open.drop(backward, eq.mu) - eq.pressure[1] + eq.pressure[0];
  const Smooth by = larger(wide, opening_slope * backward - pilot, eq.mu);
  const Smooth back = either_or(backward, by.value, eq.mu);
  eq.residual[1] = back.value;
  for (int t = 0; t < eq.terminals; ++t) eq.by_pressure(1, t) = -back.by_b * by.by_b * law.pilot[t];
  eq.by_pressure(1, 0) += back.by_b * by.by_a;
  eq.by_pressure(1, 1) -= back.by_b * by.by_a;
  eq.by_local(1, 1) = back.by_a + back.by_b * (by.by_a * law.open.slope(backward, eq.mu) + by.by_b * opening_slope);
}

}  // namespace ferrule::hydraulics
