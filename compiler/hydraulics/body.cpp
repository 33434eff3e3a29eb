// What moves as one: force (or torque) = sum of area x pressure, friction against the motion. It stands while the sum
// lies within load -/+ friction and moves as soon as the sum reaches one end (Coulomb friction; Newton's first law for
// steady motion). An efficiency instead of a friction takes its share of the driving force or torque (ISO 4391).
#include <cmath>

#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {
namespace {

// A trace of viscous friction makes the speed of two bodies on one line a question with an answer (numerical).
constexpr double viscous = 1e-5;  // bar per L/min

struct Force {
  double value, slope;
};

// What of the net force reaches the load: a share of it when driving, more than it when driven.
Force through(double net, double efficiency, double mu) {
  const double mean = 0.5 * (efficiency + 1 / efficiency), half = 0.5 * (1 / efficiency - efficiency);
  const double root = std::sqrt(net * net + mu * mu);
  return {mean * net - half * root, mean - (root > 0 ? half * net / root : 0)};
}

}  // namespace

void state(const Body& law, const Equations& eq) {
  double net = 0;
  for (int t = 0; t < eq.terminals; ++t) net += law.area[t] * eq.pressure[t];
  const Force outward = through(net, law.efficiency, eq.mu), inward = through(-net, law.efficiency, eq.mu);
  const Smooth out = either_or(eq.local[0], law.load_out + law.friction - outward.value + viscous * eq.local[0], eq.mu);
  const Smooth in = either_or(eq.local[1], law.friction - law.load_in - inward.value + viscous * eq.local[1], eq.mu);
  eq.residual[0] = out.value;
  eq.residual[1] = in.value;
  for (int t = 0; t < eq.terminals; ++t) {
    eq.by_pressure(0, t) = -out.by_b * outward.slope * law.area[t];
    eq.by_pressure(1, t) = in.by_b * inward.slope * law.area[t];
  }
  eq.by_local(0, 0) = out.by_a + out.by_b * viscous;
  eq.by_local(1, 1) = in.by_a + in.by_b * viscous;
}

}  // namespace ferrule::hydraulics
