// Sizes that handbooks work out, found again from circuits.
#include <cmath>
#include <numbers>

#include "checks/sizing/series.hpp"
#include "sizing/sized_circuit.hpp"

using namespace ferrule;
using tests::about;
using tests::line;

namespace {

// A pump that pushes one cylinder; facts and requirements put in.
std::string press(const std::string& cylinder, const std::string& step, const std::string& pump = "displacement 20 cm3/rev", const std::string& rest = {}) {
  return "reservoir 0Z1 { volume 100 L, wetted-area 1 m2, breather }\n"
         "electric-motor 0M1 { power 15 kW, speed 1500 rpm }\n"
         "fixed-pump 0P1 { " + pump + ", driven-by 0M1, volumetric 100 %, mechanical 100 % }\n"
         "relief-valve 0V1 { cracking 160 bar, full-flow 160.001 bar at 200 L/min }\n"
         "cylinder 1A1 { " + cylinder + " }\n"
         "valve 1V1 {\n  position a P>A B>T by solenoid 1Y1\n  position 0 P-T by springs\n  position b P>B A>T by solenoid 1Y2\n}\n"
         "suction 0Z1 -- {hose DN 50, length 0.5 m} -- 0P1.S\n"
         "pressure 0P1.P -- 0V1.P -- {tube 42 x 4 mm, length 1 m} -- 1V1.P\n"
         "working 1V1.A -- 1A1.A\nworking 1V1.B -- 1A1.B\n"
         "return 1V1.T -- {tube 42 x 3 mm, length 1 m} -- 0Z1\nreturn 0V1.T -- 0Z1\n"
         "cycle { step out { 1Y1 on, " + step + " } step waiting { 1A1 stands extended, for 10 s } }\n" + rest;
}

}  // namespace

// Esposito, Fluid Power with Applications, example 10-1 and 10-4: 30 gpm at 20 ft/s needs a tube of at least 0.782 in inside.
TEST_CASE("a line is as wide as continuity asks") {
  // 113.56 L/min over 1500 rpm; the limit of 20 ft/s by `require`.
  const auto sized = tests::sized(press("bore 80 mm, rod 45 mm, stroke 500 mm, friction 0 N", "1A1 extends 400 mm against 40 kN", "displacement 75.708 cm3/rev",
                                        "require pressure.velocity at most 20 ft/s\nrequire 1A1.speed at least 0.37654 m/s during out\n"));
  const sizing::Proposal& tube = about(sized, "L2 (pressure)");
  // The pump is chosen from its series, so the flow is a little more: the bore goes with the root of it.
  const double flow = line(tube, "q") / (30 * 231 * std::pow(0.0254, 3) / 60);
  CHECK(line(tube, "d_w") / 0.0254 == Approx(0.782 * std::sqrt(flow)).epsilon(0.002));
}

// A published tube table (values of the usual catalogue for E235, DIN 2413 case I): 10 x 1.5 373 bar, 12 x 1.5 353 bar, 12 x 2 409 bar.
TEST_CASE("a tube stands what the usual table says") {
  for (const auto& [outside, wall, bar] : {std::tuple{10.0, 1.5, 373.0}, {12.0, 1.5, 353.0}, {12.0, 2.0, 409.0}})
    CHECK(sizing::tube_pressure(outside / 1e3, wall / 1e3) / 1e5 == Approx(bar).margin(0.6));
}

// The textbook-style examples of Euler's formula (E 210 GPa, factor 3.5): rod 28 mm over 500 mm carries the push of a 50 mm bore at
// 160 bar with a factor of 7.96; rod 45 mm over 1600 mm the push of 63 mm at 200 bar with only 2.61.
TEST_CASE("a rod is thick enough not to buckle") {
  const auto rod = [](double push, double length, double rod_mm, double factor) {
    const double needed = std::pow(64 * 3.5 * push * length * length / (std::pow(std::numbers::pi, 3) * 210e9), 0.25);
    CHECK(std::pow(rod_mm / 1e3 / needed, 4) * 3.5 == Approx(factor).epsilon(0.001));
    return needed;
  };
  rod(31415.93, 0.5, 28, 7.96217);
  rod(62344.91, 1.6, 45, 2.61395);
  const auto sized = tests::sized(press("bore 50 mm, rod 28 mm, stroke 1400 mm, friction 0 N, buckling-length 1600 mm", "1A1 extends 400 mm against 25 kN"));
  const sizing::Proposal& cylinder = about(sized, "1A1 bore and rod");
  CHECK(line(cylinder, "d_k") == Approx(rod(line(cylinder, "F_k"), 1.6, 45, 2.61395 * 62344.91 / line(cylinder, "F_k"))).epsilon(1e-9));
  // At 160 bar a bore of 50 mm needs a rod of 40.8 mm (pairs go to 36), one of 63 mm 45.8 mm (to 45), one of 80 mm 51.6 mm (to 56).
  CHECK(cylinder.chosen == "bore 80 mm, rod 56 mm");
}

// Pascal's law: 25 kN at 160 bar with nine tenths used is 25 000 / (0.9 x 16 MPa) = 17.361 cm2, a circle of 47.016 mm; the next bore of ISO 3320 is 50 mm.
TEST_CASE("a bore is the next of the series that brings up the load") {
  const auto sized = tests::sized(press("bore 100 mm, rod 56 mm, stroke 500 mm, friction 0 N", "1A1 extends 400 mm against 25 kN"));
  const sizing::Proposal& cylinder = about(sized, "1A1 bore and rod");
  CHECK(line(cylinder, "A_w") == Approx(25e3 / (0.9 * 16e6)).epsilon(2e-3));   // what the lines lose on the way is less than that
  CHECK(line(cylinder, "d_w") == Approx(0.047016).epsilon(1e-3));
  CHECK(cylinder.chosen == "bore 50 mm, rod 28 mm");
}

// q = A v: 50 mm bore at 0.1 m/s takes 11.781 L/min; over 1500 rpm 7.854 cm3/rev, the next of ISO 3662 is 8.
TEST_CASE("a pump is the next of the series that moves the actuator in time") {
  const auto sized = tests::sized(press("bore 50 mm, rod 28 mm, stroke 500 mm, friction 0 N", "1A1 extends 400 mm against 25 kN for 4 s"));
  CHECK(line(about(sized, "0P1 displacement"), "D_w") * 2 * std::numbers::pi == Approx(7.854e-6).epsilon(1e-3));
  CHECK(about(sized, "0P1 displacement").chosen == "displacement 8 cm3/rev");
  // Common practice: three minutes of the flow and the oil of the rods: 3 x 12 L + 0.308 L.
  CHECK(line(about(sized, "0Z1 volume"), "V_w") == Approx((36 + 0.3079) * 1e-3).epsilon(1e-3));
  // P = p q: nothing over the relief valve while it moves, 160 bar x 12 L/min = 3.2 kW at most.
  CHECK(line(about(sized, "0M1 power"), "P_w") < 3.2e3);
}

// ISO 4391: T = dp D / (2 pi): 300 N m at 160 bar with nine tenths used and no losses need 130.9 cm3/rev.
TEST_CASE("a motor is the next of the series that turns its load") {
  std::string text = press("bore 50 mm, rod 28 mm, stroke 500 mm", "1A1 turns A>B 20 turns against 300 N m");
  text.replace(text.find("cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 500 mm }"), 53, "fixed-motor 1A1 { displacement 200 cm3/rev, volumetric 100 %, mechanical 100 % }");
  text.replace(text.find("1A1 stands extended"), 19, "1A1 stands");
  text += "drain 1A1.L -- 0Z1\n";
  const auto sized = tests::sized(text);
  CHECK(line(about(sized, "1A1 displacement"), "D_w") * 2 * std::numbers::pi == Approx(2 * std::numbers::pi * 300 / (0.9 * 160e5)).epsilon(2e-3));
  CHECK(about(sized, "1A1 displacement").chosen == "displacement 160 cm3/rev");
}
