// Pressure valve: the weighted pressures s decide how far it is open.
//
// Normally shut (relief, sequence, unloading, counterbalance): flow up to (s - cracking)/slope, a straight line from
// cracking to full flow and on at that slope (common practice, checks page B.0), and never more than the wide-open
// valve lets through: p_in - p_out >= drop(q). Normally open (reducing): the same with s falling short of its setting
// while it is wide open; the circuit gives it negative weights.
#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {

void state(const PressurePath& law, const Equations& eq) {
  const double flow = eq.local[0];
  double sensed = 0;
  for (int t = 0; t < eq.terminals; ++t) sensed += law.weight[t] * eq.pressure[t];
  const double by_line = law.cracking + law.slope * flow - sensed;
  const double wide_open = law.open.drop(flow, eq.mu) - eq.pressure[0] + eq.pressure[1];
  const Smooth limit = larger(by_line, wide_open, eq.mu);
  const Smooth pair = either_or(flow, limit.value, eq.mu);
  eq.residual[0] = pair.value;
  for (int t = 0; t < eq.terminals; ++t) eq.by_pressure(0, t) = -pair.by_b * limit.by_a * law.weight[t];
  eq.by_pressure(0, 0) -= pair.by_b * limit.by_b;
  eq.by_pressure(0, 1) += pair.by_b * limit.by_b;
  eq.by_local(0, 0) = pair.by_a + pair.by_b * (limit.by_a * law.slope + limit.by_b * law.open.slope(flow, eq.mu));
}

}  // namespace ferrule::hydraulics
