// Circuits small enough to work out by hand; the calculation stands beside each check.
#include <catch2/catch.hpp>

#include "hydraulics/bench.hpp"

using namespace bench;

namespace {

// 14 cm3/rev x 1450 r/min x 0.93 = 18.879 L/min. Relief 130 bar, 138 bar at 19 L/min.
Bench power_pack() {
  Bench b;
  b.oil(36, 865);
  b.tank("t");
  b.pump("P1", "t", "p", 14, 1450, 0.93);
  b.relief("RV1", "p", "t", 130, 138, 19);
  return b;
}

}  // namespace

TEST_CASE("A blocked pump goes over its relief") {
  const Bench b = power_pack();
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.q("P1") == Approx(18.879));
  CHECK(r.q("RV1") == Approx(18.879).epsilon(1e-6));
  CHECK(r.p("p") == Approx(130 + 8 * 18.879 / 19).epsilon(1e-6));  // straight line of the relief
}

TEST_CASE("A cylinder returns its flow by the ratio of its areas") {
  Bench b = power_pack();
  b.path("V1 P>A", "p", "a", 3, 25);
  b.path("V1 B>T", "b", "t", 3, 25);
  b.cylinder("C1", "a", "b", 80, 45, 600);
  b.moves("C1", Motion::Kind::extends, 38 * kN);
  const Reading r(b);
  REQUIRE(r.point.settled);
  const double cap = 50.2655, ring = 34.3612;  // cm2: pi/4 80^2, pi/4 (80^2 - 45^2)
  CHECK(r.v("C1") == Approx(18.879 / cap / 6 * 1000).epsilon(1e-4));
  CHECK(r.q("V1 B>T") == Approx(18.879 * ring / cap).epsilon(1e-4));
  const double back = 3 * std::pow(18.879 * ring / cap / 25, 2);
  CHECK(r.p("b") == Approx(back).epsilon(1e-3));
  CHECK(r.p("a") == Approx(386.0 / cap * 10 + back * ring / cap).epsilon(1e-3));  // 38.6 kN
  CHECK(r.q("RV1") == Approx(0).margin(1e-6));
}

TEST_CASE("Retracting, the cap side gives more than the pump delivers") {
  Bench b = power_pack();
  b.path("V1 P>B", "p", "b", 3, 25);
  b.path("V1 A>T", "a", "t", 3, 25);
  b.cylinder("C1", "a", "b", 80, 45, 600);
  b.moves("C1", Motion::Kind::retracts);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.q("V1 A>T") == Approx(18.879 * 50.2655 / 34.3612).epsilon(1e-4));
  CHECK(r.v("C1") < 0);
}

TEST_CASE("A load above the relief stalls the cylinder") {
  Bench b = power_pack();
  b.path("V1 P>A", "p", "a", 3, 25);
  b.path("V1 B>T", "b", "t", 3, 25);
  b.cylinder("C1", "a", "b", 80, 45, 600);
  b.moves("C1", Motion::Kind::extends, 90 * kN);  // wants 179 bar
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.v("C1") == Approx(0).margin(1e-3));
  CHECK(r.q("RV1") == Approx(18.879).epsilon(1e-4));
  CHECK(r.p("a") == Approx(137.95).epsilon(1e-3));
}

// Regeneration: both sides joined, speed = pump flow / rod area, force = pressure x rod area (common practice).
TEST_CASE("Regeneration is faster and weaker") {
  Bench b = power_pack();
  b.add(passage, "V1", {"p", "a", "b"});
  b.cylinder("C1", "a", "b", 80, 56, 500);
  b.moves("C1", Motion::Kind::extends, 4 * kN);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.v("C1") == Approx(18.879 / 24.6301 / 6 * 1000).epsilon(1e-4));  // pi/4 56^2 = 24.63 cm2
  CHECK(r.p("p") == Approx(45.0 / 24.6301 * 10).epsilon(1e-3));          // 4.5 kN on the rod area
}

TEST_CASE("Two ways side by side share by their losses, in series they add") {
  Bench b = power_pack();
  b.path("A", "p", "t", 4, 20);
  b.path("B", "p", "t", 1, 20);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.q("A") + r.q("B") == Approx(18.879).epsilon(1e-8));
  CHECK(r.q("B") == Approx(2 * r.q("A")).epsilon(1e-4));  // square law: a quarter of the drop, twice the flow
  CHECK(r.q("A") * r.q("A") / 400 * 4 == Approx(r.p("p")).epsilon(1e-4));
}

TEST_CASE("A pump without any limit is reported as unlimited, not as a number") {
  Bench b;
  b.tank("t");
  b.pump("P1", "t", "p", 14, 1450, 0.93);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(std::isinf(r.p("p")));
  CHECK(r.point.notes.size() == 1);
}

TEST_CASE("Oil shut in without a load has no pressure of its own") {
  Bench b = power_pack();
  b.cylinder("C1", "a", "b", 80, 45, 600);
  b.moves("C1", Motion::Kind::stands);
  const Reading r(b);
  CHECK(r.trapped("a"));
  CHECK(std::isnan(r.p("a")));
  CHECK_FALSE(r.trapped("p"));
}

TEST_CASE("A locked chamber carries the load that presses on it") {
  Bench b = power_pack();
  b.add(one_way, "CV1", {"p", "a"}, {{P::cracking, 0.5 * bar}, {P::drop, 2 * bar}, {P::drop_flow, 15 * lpm}});
  b.state.running[b.part("P1").index] = false;
  b.add(piston, "C1", {"a"}, {{P::bore, 50 * mm}, {P::friction, 500}});
  b.moves("C1", Motion::Kind::held, 30 * kN, Load::Sense::pushing_in);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.p("a") == Approx(30000 / (std::numbers::pi / 4 * 0.05 * 0.05) / 1e5).epsilon(1e-3));  // 152.8 bar, friction nil at rest
  CHECK_FALSE(r.trapped("a"));
}

// Two equal cylinders on one lossless tee: the pressure is known, who moves is not (common practice: the easier one first).
TEST_CASE("What only friction decides has no number") {
  Bench b = power_pack();
  b.cylinder("C1", "p", "t", 50, 28, 250);
  b.cylinder("C2", "p", "t", 50, 28, 250);
  b.moves("C1", Motion::Kind::extends, 10 * kN);
  b.moves("C2", Motion::Kind::extends, 10 * kN);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.p("p") == Approx(10250 / 19.634954e-4 / 1e5).epsilon(1e-3));
  CHECK(std::isnan(r.v("C1")));
  REQUIRE(r.point.notes.size() == 1);
  CHECK(r.point.notes[0] == "C1 and C2 share the flow: which moves first is left to friction");
  Bench unequal = b;
  unequal.state.motions[1].load.force->si = 12 * kN;
  CHECK(Reading(unequal).v("C2") == Approx(0).margin(1e-6));
  CHECK(Reading(unequal).v("C1") == Approx(18.879 / 19.634954 / 6 * 1000).epsilon(1e-4));
}

TEST_CASE("Points are solved when asked for") {
  const Bench b = power_pack();
  const std::vector<State> states(3, b.state);
  const Points points(b.circuit, states);
  REQUIRE(points.size() == 3);
  CHECK(&points[1] == &points[1]);
  CHECK(points[2].settled);
}
