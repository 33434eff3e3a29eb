// Two-way loss: p_a - p_b = drop(q). Laws of the drop and their sources: resistance.hpp.
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {

void state(const Loss& law, const Equations& eq) {
  const double flow = eq.local[0];
  eq.residual[0] = eq.pressure[0] - eq.pressure[1] - law.resistance.drop(flow, eq.mu);
  eq.by_pressure(0, 0) = 1;
  eq.by_pressure(0, 1) = -1;
  eq.by_local(0, 0) = -law.resistance.slope(flow, eq.mu);
}

}  // namespace ferrule::hydraulics
