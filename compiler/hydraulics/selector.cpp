// Shuttle valve: the outlet stands at the higher of two pressures and draws from that side (ISO 5598: shuttle valve).
#include <cmath>

#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {

void state(const Selector&, const Equations& eq) {
  constexpr double passage = 1e-3;  // bar per L/min: signal flow only, its loss is not worth a datum
  const double one = eq.pressure[0], two = eq.pressure[1];
  const Smooth higher = larger(one, two, eq.mu);
  eq.residual[0] = higher.value - eq.pressure[2] - passage * (eq.local[0] + eq.local[1]);
  eq.by_pressure(0, 0) = higher.by_a;
  eq.by_pressure(0, 1) = higher.by_b;
  eq.by_pressure(0, 2) = -1;
  eq.by_local(0, 0) = eq.by_local(0, 1) = -passage;

  // The ball: its side's share runs from 0 to 1 as the pressures cross.
  const double span = 1e-3 + eq.mu, difference = one - two;
  const double root = std::sqrt(difference * difference + span * span);
  const double share = 0.5 * (1 + difference / root), share_slope = 0.5 * span * span / (root * root * root);
  const double total = eq.local[0] + eq.local[1];
  eq.residual[1] = eq.local[0] - share * total;
  eq.by_pressure(1, 0) = -share_slope * total;
  eq.by_pressure(1, 1) = share_slope * total;
  eq.by_local(1, 0) = 1 - share;
  eq.by_local(1, 1) = -share;
}

}  // namespace ferrule::hydraulics
