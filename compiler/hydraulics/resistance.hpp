// Pressure drop of a valve path, orifice, filter or laminar plug over its flow.
//
// Square law through the stated point, drop = D (q/Q)^2: turbulent passage, common practice for valve paths (makers state
// one point). Linear: drop = D q/Q, laminar (filter elements, Hagen-Poiseuille). Orifice: q = Cd A sqrt(2 dp / rho),
// from Bernoulli and continuity (e.g. Merritt, Hydraulic Control Systems, 1967, ch. 3; from memory).
#pragma once

#include <cmath>

namespace ferrule::hydraulics {

// Units bar and L/min.
struct Resistance {
  double square = 0;  // bar/(L/min)^2
  double linear = 0;  // bar/(L/min)
  double seam = 0;    // L/min: below it the square law runs into a straight line, so that its slope at zero stays finite

  double drop(double flow, double mu) const;
  double slope(double flow, double mu) const;
};

Resistance square_through(double drop, double at_flow);
Resistance straight_through(double drop, double at_flow);
// Diameter in m, density in kg/m3, kinematic viscosity in m2/s.
Resistance orifice(double diameter, double coefficient, double density, double kinematic_viscosity);

// Never lossless: two lossless ways side by side would share their flow by nothing. A numerical regularisation.
inline constexpr double least_linear = 1e-6;  // bar/(L/min)

inline double Resistance::drop(double flow, double mu) const {
  return linear * flow + square * flow * std::sqrt(flow * flow + seam * seam + mu * mu);
}

inline double Resistance::slope(double flow, double mu) const {
  const double rest = seam * seam + mu * mu;
  const double root = std::sqrt(flow * flow + rest);
  return linear + (root > 0 ? square * (2 * flow * flow + rest) / root : 0);
}

}  // namespace ferrule::hydraulics
