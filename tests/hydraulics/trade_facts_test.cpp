// What a practitioner expects of pumps, springs and vented valves, in numbers, through the whole way from text to operating point.
// [E] Esposito, Fluid Power with Applications, 6th ed. (2005); [S] Sullivan, Fluid Power: Theory and Applications, 4th ed.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include "compiler/built.hpp"
#include "compiler/hydraulics/solve.hpp"

using built::Built;
using namespace ferrule;

namespace {

constexpr double gpm = 3.785411784e-3 / 60, lpm = 1e-3 / 60, bar = 1e5, pi = std::numbers::pi;

// The operating point of one state, by tag and port.
struct At {
  const Built& on;
  OperatingPoint point;
  At(const Built& circuit, const std::string& state) : on(circuit), point(solve(circuit.circuit, circuit.state(state))) {
    REQUIRE(circuit.messages() == "");
    REQUIRE(point.settled);
  }
  double p(const std::string& tag, const std::string& port) const { return point.pressure[on.node(tag, port).index] / bar; }
  const Element& main(const std::string& tag, ElementKind kind) const {
    for (const Element& element : on.circuit.elements)
      if (element.part == on.part(tag) && element.kind == kind) return element;
    throw std::runtime_error("no such element in " + tag);
  }
  double q(const std::string& tag, ElementKind kind) const { return point.flow[on.circuit.elements.id_of(main(tag, kind)).index]; }
  double v(const std::string& tag) const { return point.speed[on.circuit.elements.id_of(main(tag, ElementKind::piston)).index]; }
};

// A pump as stated, its whole flow over a relief valve.
double delivery(const std::string& pump, double speed_rpm) {
  const Built circuit("reservoir 0Z1 { volume 40 L }\nelectric-motor 0M1 { power 90 kW, speed " + std::to_string(speed_rpm) + " rpm }\n" + pump +
                      "relief-valve 0V1 { cracking 20 bar, full-flow 25 bar at 200 L/min }\n"
                      "suction 0Z1 -- 0P1.S\npressure 0P1.P -- 0V1.P\nreturn 0V1.T -- 0Z1\n");
  return At(circuit, "rest").q("0P1", ElementKind::displacement);
}

std::string fixed(const std::string& type, double in3, double percent) {
  return "fixed-pump 0P1 { " + type + ", displacement " + std::to_string(in3) + " in3/rev, driven-by 0M1, volumetric " + std::to_string(percent) + " % }\n";
}

std::string variable(double in3, double opening_percent, double percent) {
  return "variable-pump 0P1 { displacement " + std::to_string(in3) + " in3/rev, driven-by 0M1, volumetric " + std::to_string(percent) + " %, opening " +
         std::to_string(opening_percent) + " % }\ndrain 0P1.L -- 0Z1\n";
}

}  // namespace

// [E] example 5-1, p. 167: gear pump of 3 in outside and 2 in inside diameter, 1 in wide, 1800 r/min, 91.5 %: 28 gpm.
TEST_CASE("A gear pump delivers what its teeth sweep, times its speed") {
  const double in3 = pi / 4 * (9 - 4) * 1;
  CHECK(delivery(fixed("type gear", in3, 91.5), 1800) / gpm == Approx(28).epsilon(2e-3));
  CHECK(delivery(fixed("type gear", in3, 91.5), 900) / gpm == Approx(14).epsilon(2e-3));
}

// [E] example 5-3, p. 176: vane pump, rotor 2 in, cam ring 3 in, vanes 2 in wide; 5 in3/rev want an eccentricity of 0.318 in.
TEST_CASE("A vane pump delivers by its eccentricity") {
  const auto displacement = [](double eccentricity) { return pi / 2 * (3 + 2) * eccentricity * 2; };
  const double full = displacement(0.5);  // rotor against ring
  CHECK(delivery(variable(full, 100 * 0.3183 / 0.5, 100), 1000) / gpm == Approx(5 * 1000 / 231.0).epsilon(1e-3));
  CHECK(delivery(variable(full, 0, 100), 1000) == Approx(0).margin(1e-9));  // centred, it delivers nothing
}

// [E] example 5-6, p. 182: axial piston pump of nine 0.5 in pistons on a 5 in circle, 3000 r/min, 95 %: 16 gpm at an offset whose tangent is 0.147.
TEST_CASE("An axial piston pump delivers by the angle of its swash plate") {
  const double full = 5 * pi / 4 * 0.25 * 9 * std::tan(15 * pi / 180);
  CHECK(delivery(variable(full, 100 * 0.14677 / std::tan(15 * pi / 180), 95), 3000) / gpm == Approx(16).epsilon(2e-3));
}

// [S] example 7.4, p. 150: nine pistons of 0.5 in bore and 0.75 in stroke at 3000 r/min: 17.212 gpm.
TEST_CASE("A piston pump delivers the strokes of its pistons") {
  CHECK(delivery(fixed("type piston", 9 * 0.75 * pi / 4 * 0.25, 100), 3000) / gpm == Approx(17.212).epsilon(1e-3));
}

// Common practice. 40 mm bore: 12.566 cm2; the spring wants 0.2 kN with the rod in and 0.5 kN with it out, friction 0.1 kN.
TEST_CASE("Oil to the cap end compresses the spring and extends the rod; let off to the reservoir, the spring brings it back") {
  const Built circuit(built::with_supply(
      "valve 1V1 { position 0 A>T by spring, position a P>A by solenoid 1Y1, drop 1 bar at 20 L/min }\n"
      "spring-return-cylinder 1A1 { bore 40 mm, rod 20 mm, stroke 100 mm, friction 0.1 kN, spring-retracted 0.2 kN, spring-extended 0.5 kN, horizontal }\n"
      "pressure 0P1.P -- 1V1.P\nworking 1V1.A -- 1A1.A\nreturn 1V1.T -- 0Z1\n"
      "cycle { step out { 1Y1 on, 1A1 extends 90 mm }, step back { 1A1 retracts 90 mm } }\n"));
  const At out(circuit, "out"), back(circuit, "back");
  CHECK(out.v("1A1") > 0);
  CHECK(out.p("1A1", "A") == Approx((500 + 100) / 12.566e-4 / bar).epsilon(1e-3));  // the spring at the end of the way
  CHECK(out.v("1A1") == Approx(out.q("0P1", ElementKind::displacement) / 12.566e-4).epsilon(1e-3));
  CHECK(back.v("1A1") < 0);
  CHECK(back.p("1A1", "A") == Approx((200 - 100) / 12.566e-4 / bar).margin(0.01));  // what is left of the spring drives the oil out
  CHECK(circuit.reach_of("back", "1A1", "A").to_tank == Reach::ToTank::open);
}

// Common practice: venting takes the oil off the main spool, and its balance is upset against a light spring alone (5 bar here).
TEST_CASE("A pilot-operated relief valve opens its main stage when the oil above its spool is let off") {
  const std::string rest =
      "reservoir 0Z1 { volume 40 L }\nelectric-motor 0M1 { power 4 kW, speed 1450 rpm }\nfixed-pump 0P1 { displacement 10 cm3/rev, driven-by 0M1 }\n"
      "pilot-operated-relief-valve 0V1 { setting 150 bar, vented 5 bar }\n"
      "suction 0Z1 -- 0P1.S\npressure 0P1.P -- 0V1.P\nreturn 0V1.T -- 0Z1\n";
  const Built vented(rest + "normally-closed-two-way-valve 0V2 { a by solenoid 0Y1 }\npilot 0V1.X -- 0V2.P\nreturn 0V2.A -- 0Z1\n");
  const At shut(vented, "rest"), open(vented, "0V2=a");
  CHECK(shut.p("0P1", "P") > 130);  // the pilot stage holds: setting less the override
  CHECK(shut.p("0P1", "P") < 151);
  CHECK(open.p("0P1", "P") > 4);
  CHECK(open.p("0P1", "P") < 8);
  // With a remote pilot on X the main stage opens some bar above the remote setting, well below its own.
  const Built remote(rest + "relief-valve 0V3 { cracking 60 bar, full-flow 65 bar at 5 L/min }\npilot 0V1.X -- 0V3.P\nreturn 0V3.T -- 0Z1\n");
  const double pressure = At(remote, "rest").p("0P1", "P");
  CHECK(pressure > 60);
  CHECK(pressure < 80);
}

// Common practice.
TEST_CASE("A closed centre drives the pump over its relief valve, a tandem centre lets it idle") {
  const auto on = [](const std::string& valve) {
    return built::with_supply(valve + " 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\ncylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                              "pressure 0P1.P -- 1V1.P\nworking 1V1.A -- 1A1.A\nworking 1V1.B -- 1A1.B\nreturn 1V1.T -- 0Z1\n");
  };
  const Built closed(on("closed-centre-valve")), tandem(on("tandem-centre-valve"));
  const At stands(closed, "rest"), idles(tandem, "rest");
  CHECK(stands.q("0V1", ElementKind::pressure_path) / lpm == Approx(10 * 1.45 * 0.92).epsilon(1e-3));
  CHECK(stands.p("0P1", "P") > 140);
  CHECK(idles.q("0V1", ElementKind::pressure_path) == Approx(0).margin(1e-9));
  CHECK(idles.p("0P1", "P") < 10);
}
