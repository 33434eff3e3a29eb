// What is either one thing or the other (shut or open, standing or moving) is a pair 0 <= a, 0 <= b, a b = 0.
//
// Smoothed by A. Fischer and W. Burmeister (A. Fischer, "A special Newton-type optimization method", Optimization 24,
// 1992): a + b - sqrt(a^2 + b^2 + 2 mu^2) = 0 means a b = mu^2. Newton follows mu from large to small.
#pragma once

#include <cmath>

namespace ferrule::hydraulics {

struct Smooth {
  double value, by_a, by_b;
};

// Zero where a b = mu^2 and both are positive. Written without the cancellation of the textbook form.
inline Smooth either_or(double a, double b, double mu) {
  const double rest = 2 * mu * mu;
  const double root = std::sqrt(a * a + b * b + rest);
  const double sum = a + b;
  const double value = sum > 0 ? 2 * (a * b - mu * mu) / (sum + root) : sum - root;
  const double by_a = a > 0 ? (b * b + rest) / (root * (root + a)) : 1 - a / root;
  const double by_b = b > 0 ? (a * a + rest) / (root * (root + b)) : 1 - b / root;
  return {value, by_a, by_b};
}

// The larger of two, rounded off over mu.
inline Smooth larger(double a, double b, double mu) {
  const double difference = a - b;
  const double root = std::sqrt(difference * difference + 4 * mu * mu);
  const double share = root > 0 ? difference / root : 0;
  return {0.5 * (a + b + root), 0.5 * (1 + share), 0.5 * (1 - share)};
}

inline Smooth smaller(double a, double b, double mu) {
  const Smooth negative = larger(-a, -b, mu);
  return {-negative.value, negative.by_a, negative.by_b};
}

}  // namespace ferrule::hydraulics
