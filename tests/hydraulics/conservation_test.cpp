// Circuits of many branches, grown from a fixed seed: every one settles and no point makes or loses oil.
#include <catch2/catch.hpp>

#include <chrono>
#include <random>

#include "hydraulics/bench.hpp"

using namespace bench;

namespace {

// `units` pump stations with a relief and several cylinder branches each, some metered, some held by counterbalance valves.
Bench plant(int units, int branches, unsigned seed) {
  std::mt19937 random(seed);
  auto between = [&](double low, double high) { return low + (high - low) * static_cast<double>(random()) / 4294967296.0; };
  Bench b;
  b.oil(36, 865);
  b.tank("t");
  for (int u = 0; u < units; ++u) {
    const std::string n = std::to_string(u);
    b.tube("LS" + n, "t", "s" + n, 40, 0.6, 1);
    b.pump("P" + n, "s" + n, "p" + n, between(10, 40), 1450, 0.93);
    b.relief("RV" + n, "p" + n, "t", 150, 165, 30);
    b.tube("LP" + n, "p" + n, "g" + n, 16, 2, 2);
    b.add(restriction, "F" + n, {"r" + n, "t"}, {{P::drop, 0.5 * bar}, {P::drop_flow, 60 * lpm}}, {"linear"});
    for (int k = 0; k < branches; ++k) {
      const std::string m = n + "." + std::to_string(k);
      b.path("V" + m + " P>A", "g" + n, "va" + m, 3, 25);
      b.path("V" + m + " B>T", "vb" + m, "r" + n, 3, 25);
      b.tube("LA" + m, "va" + m, "a" + m, 12, between(1, 4), 2);
      b.tube("LB" + m, "b" + m, "vb" + m, 12, between(1, 4), 2);
      if (random() % 2) b.add(regulated_flow, "FC" + m, {"a" + m, "c" + m}, {{P::flow, between(2, 9) * lpm}, {P::least_drop, 8 * bar}});
      else b.add(one_way, "CV" + m, {"a" + m, "c" + m}, {{P::cracking, 0.5 * bar}, {P::drop, 2 * bar}, {P::drop_flow, 20 * lpm}});
      b.add(pressure_path, "CB" + m, {"d" + m, "b" + m}, {{P::cracking, 60 * bar}, {P::full_flow, 70 * bar}, {P::full_flow_flow, 30 * lpm},
                                                          {P::drop, 4 * bar}, {P::drop_flow, 30 * lpm}});
      b.senses("CB" + m, {{"d" + m, 1}, {"c" + m, 3}});
      b.cylinder("C" + m, "c" + m, "d" + m, 63, 36, 400);
      b.moves("C" + m, Motion::Kind::extends, between(1, 30) * kN);
    }
  }
  return b;
}

double worst_imbalance(const Bench& b, const OperatingPoint& point) {
  std::vector<double> into(b.circuit.nodes.size(), 0);
  double largest = 0;
  for (std::uint32_t i = 0; i < b.circuit.elements.size(); ++i) {
    const Element& e = b.circuit.elements.rows[i];
    if (e.ends.size() < 2) continue;
    const double flow = point.flow[i];
    largest = std::max(largest, std::fabs(flow));
    double ratio = 1;
    if (e.kind == piston) ratio = 1 - std::pow(*e.value(P::rod) / *e.value(P::bore), 2);
    into[e.ends[0].index] -= flow;
    into[e.ends[1].index] += flow * ratio;
  }
  double worst = 0;
  for (const auto& [name, node] : b.nodes)
    if (name != "t") worst = std::max(worst, std::fabs(into[node.index]));
  return worst / largest;
}

}  // namespace

TEST_CASE("Forty plants settle and keep their oil") {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    const Bench b = plant(1 + seed % 3, 2 + seed % 5, seed);
    const OperatingPoint point = b.solved();
    INFO("seed " << seed << " residual " << point.residual << " " << (point.alternating.empty() ? "" : point.alternating.front()));
    CHECK(point.settled);
    CHECK(worst_imbalance(b, point) < 1e-9);
  }
}

TEST_CASE("A thousand components are solved in milliseconds", "[.time]") {
  for (const auto& [units, branches] : {std::pair{1, 3}, {25, 4}, {5, 20}, {1, 100}, {250, 4}}) {
    const Bench b = plant(units, branches, 7);
    const auto before = std::chrono::steady_clock::now();
    const OperatingPoint point = b.solved();
    const double ms = std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - before).count();
    WARN(b.circuit.parts.size() << " components: " << ms << " ms, settled " << point.settled << " residual " << point.residual);
  }
}
