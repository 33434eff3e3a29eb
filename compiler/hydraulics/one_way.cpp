// Check valve: either shut, or open with p_in - p_out = cracking + drop(q).
// The drop stated for a check is total, cracking included (common practice of makers' curves).
#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {

void state(const OneWay& law, const Equations& eq) {
  const double flow = eq.local[0];
  const double shut_by = law.cracking + law.open.drop(flow, eq.mu) - eq.pressure[0] + eq.pressure[1];
  const Smooth pair = either_or(flow, shut_by, eq.mu);
  eq.residual[0] = pair.value;
  eq.by_pressure(0, 0) = -pair.by_b;
  eq.by_pressure(0, 1) = pair.by_b;
  eq.by_local(0, 0) = pair.by_a + pair.by_b * law.open.slope(flow, eq.mu);
}

}  // namespace ferrule::hydraulics
