// Worked examples of textbooks, solved as circuits. [E]: Esposito, Fluid Power with Applications, 6th ed. (2005).
#include <catch2/catch.hpp>

#include "hydraulics/bench.hpp"

using namespace bench;

namespace {

constexpr double gpm = 3.785411784, psi = 0.0689475729, inch = 0.0254, in2 = inch * inch, lbf = 4.4482216;
constexpr double in3_per_rev = 1.6387064e-5 / (2 * std::numbers::pi);

double bore_of(double area) { return std::sqrt(4 * area / std::numbers::pi); }

void source(Bench& b, double l_min) { b.pump("P1", "t", "p", 1, l_min * 1000, 1); }

}  // namespace

// [E] example 6-1, p. 219: 20 gpm, bore 2 in, rod 1 in, 1000 lbf both ways: 318 psi and 2.05 ft/s out, 425 psi and 2.73 ft/s in.
TEST_CASE("Double-acting cylinder, out and in") {
  Bench b;
  b.tank("t");
  source(b, 20 * gpm);
  b.add(piston, "C1", {"p", "t"}, {{P::bore, 2 * inch}, {P::rod, inch}, {P::friction, 0}});
  b.moves("C1", Motion::Kind::extends, 1000 * lbf);
  const Reading out(b);
  CHECK(out.p("p") / psi == Approx(318.31).epsilon(1e-3));
  CHECK(out.v("C1") / 304.8 == Approx(2.0425).epsilon(1e-3));
  b.circuit.elements[b.elements["C1"]].ends = {b.node("t"), b.node("p")};
  const Reading in(b);
  CHECK(in.p("p") / psi == Approx(424.41).epsilon(1e-3));
  CHECK(in.v("C1") / 304.8 == Approx(-2.7233).epsilon(1e-3));
}

// [E] example 9-1, p. 331: piston 25 in2, rod 7 in2, 20 gpm at 1000 psi: regenerative 11.0 in/s with 7000 lbf, back 4.28 in/s.
TEST_CASE("Regenerative extension") {
  Bench b;
  b.tank("t");
  source(b, 20 * gpm);
  b.add(piston, "C1", {"p", "p"}, {{P::bore, bore_of(25 * in2)}, {P::rod, bore_of(7 * in2)}, {P::friction, 0}});
  b.moves("C1", Motion::Kind::extends, 7000 * lbf);
  const Reading out(b);
  CHECK(out.v("C1") / 25.4 == Approx(11.0).epsilon(1e-3));
  CHECK(out.p("p") / psi == Approx(1000).epsilon(1e-3));
  b.circuit.elements[b.elements["C1"]].ends = {b.node("t"), b.node("p")};
  CHECK(Reading(b).v("C1") / 25.4 == Approx(-4.2778).epsilon(1e-3));
}

// [E] example 7-2, p. 259: 5 in3/rev, 10 gpm: 462 r/min; 1000 psi is 795 lbf in.
TEST_CASE("Ideal motor") {
  Bench b;
  b.tank("t");
  source(b, 10 * gpm);
  b.add(displacement, "M1", {"p", "t"}, {{P::displacement, 5 * in3_per_rev}, {P::volumetric, 1}, {P::mechanical, 1}}, {"motor"});
  b.moves("M1", Motion::Kind::turns_ab, 795.77 * lbf * inch);
  const Reading r(b);
  CHECK(r.n("M1") == Approx(462).epsilon(1e-3));
  CHECK(r.p("p") / psi == Approx(1000).epsilon(1e-3));
}

// [E] example 7-4, p. 264: pump 5 in3/rev, 500 r/min, 82 %; motor 400 r/min, 92 % and 90 %: 4.71 in3/rev, 674 lbf in at 1000 psi.
TEST_CASE("Hydrostatic transmission with losses") {
  Bench b;
  b.tank("t");
  b.add(displacement, "P1", {"t", "p"}, {{P::displacement, 5 * in3_per_rev}, {P::speed, 500 * rpm}, {P::volumetric, 0.82}}, {"pump"});
  b.add(displacement, "M1", {"p", "t"}, {{P::displacement, 4.715 * in3_per_rev}, {P::volumetric, 0.92}, {P::mechanical, 0.9}}, {"motor"});
  b.moves("M1", Motion::Kind::turns_ab, 675.374 * lbf * inch);
  const Reading r(b);
  CHECK(r.n("M1") == Approx(400).epsilon(1e-3));
  CHECK(r.p("p") / psi == Approx(1000).epsilon(1e-3));
}

// Two equal orifices of 2 mm in series, 100 bar, Cd 0.62, 870 kg/m3: 12.529 L/min, half the drop each;
// 1.5 and 2.5 mm side by side, 50 bar: 26.625 L/min, 7.048 of it through the small one (q = Cd A sqrt(2 dp/rho)).
TEST_CASE("Orifices in series and side by side") {
  auto jet = [](Bench& b, const char* tag, const char* from, const char* to, double d) {
    b.add(restriction, tag, {from, to}, {{P::diameter, d * mm}, {P::coefficient, 0.62}});
  };
  Bench series;
  series.oil(32, 870);
  series.tank("t");
  series.add(gas_volume, "A1", {"p"}, {{P::gas_pressure, 100 * bar}});
  jet(series, "O1", "p", "m", 2);
  jet(series, "O2", "m", "t", 2);
  CHECK(Reading(series).q("O1") == Approx(12.52948).epsilon(1e-4));
  CHECK(Reading(series).p("m") == Approx(50).epsilon(1e-4));
  Bench beside;
  beside.oil(32, 870);
  beside.tank("t");
  beside.add(gas_volume, "A1", {"p"}, {{P::gas_pressure, 50 * bar}});
  jet(beside, "O1", "p", "t", 1.5);
  jet(beside, "O2", "p", "t", 2.5);
  CHECK(Reading(beside).q("O1") == Approx(7.047835).epsilon(1e-4));
  CHECK(Reading(beside).q("O1") + Reading(beside).q("O2") == Approx(26.62515).epsilon(1e-4));
}

// Meter-out: 100 bar on a 50/36 cylinder, 8 kN against, choke 2 mm: 123.04 bar on the rod side, 0.34642 m/s, 40.812 L/min in
// (force balance and orifice law).
TEST_CASE("Meter-out intensifies the rod side") {
  Bench b;
  b.oil(32, 870);
  b.tank("t");
  b.add(gas_volume, "A1", {"p"}, {{P::gas_pressure, 100 * bar}});
  b.add(piston, "C1", {"p", "b"}, {{P::bore, 50 * mm}, {P::rod, 36 * mm}, {P::friction, 0}});
  b.add(restriction, "O1", {"b", "t"}, {{P::diameter, 2 * mm}, {P::coefficient, 0.62}});
  b.moves("C1", Motion::Kind::extends, 8 * kN);
  const Reading r(b);
  CHECK(r.p("b") == Approx(123.0406).epsilon(1e-4));
  CHECK(r.v("C1") == Approx(346.4214).epsilon(1e-4));
  CHECK(r.q("C1") == Approx(40.81181).epsilon(1e-4));
}

// The rod side shut: 160 bar on 100/70 gives 313.7 bar there without a load (force balance).
TEST_CASE("A shut rod side intensifies") {
  Bench b;
  b.oil(32, 870);
  b.tank("t");
  b.add(gas_volume, "A1", {"p"}, {{P::gas_pressure, 160 * bar}});
  b.add(piston, "C1", {"p", "b"}, {{P::bore, 100 * mm}, {P::rod, 70 * mm}, {P::friction, 0}});
  b.add(one_way, "CV1", {"t", "b"}, {{P::cracking, 0.5 * bar}});
  b.moves("C1", Motion::Kind::extends, 1);
  const Reading r(b);
  CHECK(r.p("b") == Approx(313.7255).epsilon(1e-3));
  CHECK(r.v("C1") == Approx(0).margin(1e-6));
}
