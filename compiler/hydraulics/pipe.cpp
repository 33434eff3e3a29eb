// Pipe: p_a - p_b = (f L/d + K) rho v^2/2 + rho g rise (Darcy-Weisbach; bar, L/min).
//
// Friction factor f: 64/Re (Hagen-Poiseuille) below Re 2300; C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939), above 4000;
// between them, where sources disagree, straight in Re.
#include <cmath>

#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double laminar_to = 2300, turbulent_from = 4000;

// 1/sqrt(f) = -2 log10(eps/3.7 + 2.51/(Re sqrt f)), by Newton on x = 1/sqrt(f) from the explicit form of
// S. E. Haaland, J. Fluids Eng. 105 (1983); three steps reach the last digit.
double colebrook(double reynolds, double eps) {
  double x = -1.8 * std::log10(std::pow(eps / 3.7, 1.11) + 6.9 / reynolds);
  const double rough = eps / 3.7, smooth = 2.51 / reynolds;
  for (int step = 0; step < 3; ++step) {
    const double inner = rough + smooth * x;
    const double value = x + 2 * std::log10(inner);
    x -= value / (1 + 2 * smooth / (inner * std::log(10.0)));
  }
  return 1 / (x * x);
}

// f(Re) Re and its slope: finite at rest, where f alone is not.
struct Friction {
  double times_reynolds, slope;
};

Friction friction(double reynolds, double eps) {
  if (reynolds <= laminar_to) return {64, 0};
  if (reynolds < turbulent_from) {
    const double low = 64 / laminar_to, gain = (colebrook(turbulent_from, eps) - low) / (turbulent_from - laminar_to);
    const double f = low + gain * (reynolds - laminar_to);
    return {f * reynolds, f + gain * reynolds};
  }
  const double f = colebrook(reynolds, eps), root = std::sqrt(f);
  // From the implicit equation: df/dRe = -2 c f^1.5 ... with c = (2/ln 10) (2.51 / (Re sqrt f)) / (eps/3.7 + 2.51/(Re sqrt f)).
  const double part = 2.51 / (reynolds * root);
  const double c = 2 / std::log(10.0) * part / (eps / 3.7 + part);
  const double by_reynolds = -2 * c * f * root / (reynolds * (1 + c * root));
  return {f * reynolds, f + by_reynolds * reynolds};
}

}  // namespace

double friction_factor(double reynolds, double relative_roughness) {
  return friction(reynolds, relative_roughness).times_reynolds / reynolds;
}

void state(const Pipe& law, const Equations& eq) {
  const double flow = eq.local[0], size = std::fabs(flow);
  const auto [fr, slope] = friction(law.reynolds * size, law.relative_roughness);
  const double straight = law.head * law.slenderness / law.reynolds;  // times f Re, times q
  const double bends = law.head * law.losses, root = std::sqrt(size * size + eq.mu * eq.mu);
  const double drop = straight * fr * flow + bends * flow * root;
  eq.residual[0] = eq.pressure[0] - eq.pressure[1] - law.lift - drop - 1e-9 * flow;
  eq.by_pressure(0, 0) = 1;
  eq.by_pressure(0, 1) = -1;
  const double bend_slope = root > 0 ? bends * (2 * size * size + eq.mu * eq.mu) / root : 0;
  eq.by_local(0, 0) = -(straight * (fr + slope * law.reynolds * size) + bend_slope + 1e-9);
}

}  // namespace ferrule::hydraulics
