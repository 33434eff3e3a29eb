// What every practitioner knows of these components, held against what the program finds in them.
// Source of each case: common practice, unless something else stands there.
#include <catch2/catch.hpp>

#include "compiler/built.hpp"

using built::Built;
using built::with_supply;
using ferrule::Condition;
using ferrule::Reach;

namespace {

// A double-acting cylinder on a four-port valve.
std::string cylinder_on(const std::string& valve) {
  return with_supply(valve +
                     "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                     "pressure 0P1.P -- 1V1.P\n"
                     "working 1V1.A -- 1A1.A\n"
                     "working 1V1.B -- 1A1.B\n"
                     "return 1V1.T -- 0Z1\n");
}

std::vector<std::string> tags(const Built& circuit, const std::vector<ferrule::PartId>& parts) {
  std::vector<std::string> names;
  for (ferrule::PartId part : parts) names.push_back(circuit.circuit.parts[part].tag);
  return names;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("a spring-offset 4/2 valve stands crossed at rest and straight when operated") {
  const Built circuit(cylinder_on("four-way-valve 1V1 { a by solenoid 1Y1 }\n"));
  REQUIRE(circuit.messages() == "");
  const auto rest = circuit.paths("rest");
  CHECK(rest.valves.at(0).joined == std::vector<Names>{{"P", "B"}, {"A", "T"}});
  CHECK(circuit.condition("rest", "1A1", "B") == Condition::fed);
  CHECK(circuit.condition("rest", "1A1", "A") == Condition::returned);
  const auto operated = circuit.paths("1V1=a");
  CHECK(operated.valves.at(0).joined == std::vector<Names>{{"P", "A"}, {"B", "T"}});
  CHECK(circuit.condition("1V1=a", "1A1", "A") == Condition::fed);
  CHECK(circuit.condition("1V1=a", "1A1", "B") == Condition::returned);
}

TEST_CASE("a closed centre blocks all four ports, so the pump flow opens the relief valve") {
  const Built circuit(cylinder_on("closed-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.paths("rest").valves.at(0).joined.empty());
  CHECK(circuit.paths("rest").valves.at(0).blocked.size() == 4);
  const Reach outlet = circuit.reach_of("rest", "0P1", "P");
  CHECK(outlet.to_tank == Reach::ToTank::through_pressure_control);
  CHECK(tags(circuit, outlet.reliefs_seen) == Names{"0V1"});
  CHECK(circuit.condition("rest", "1A1", "A") == Condition::trapped);
  CHECK(circuit.words("rest") ==
        "At rest: 1V1 stands in 0: all ports are blocked. The oil of 0P1 has no way but over 0V1: it runs at full pressure, and "
        "all its power becomes heat. At 1A1, the oil at A is shut in and the oil at B is shut in, so it stands.");
}

TEST_CASE("a tandem centre lets the pump idle at low pressure and locks the cylinder") {
  const Built circuit(cylinder_on("tandem-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.reach_of("rest", "0P1", "P").to_tank == Reach::ToTank::open);
  CHECK(circuit.condition("rest", "0P1", "P") == Condition::circulates);
  CHECK(circuit.condition("rest", "1A1", "A") == Condition::trapped);
  CHECK(circuit.condition("rest", "1A1", "B") == Condition::trapped);
  CHECK(circuit.words("rest") ==
        "At rest: 1V1 stands in 0: P joins T, A and B are blocked. The oil of 0P1 returns to the reservoir at low pressure. "
        "At 1A1, the oil at A is shut in and the oil at B is shut in, so it stands.");
  CHECK(circuit.words("1V1=a") ==
        "With 1V1 in a: 1V1 stands in a: P joins A, B joins T. 0P1 feeds 1A1.A; 0V1 limits its pressure. At 1A1, A gets oil of 0P1 "
        "and B is open to the reservoir, so it goes out.");
}

TEST_CASE("a single-acting cylinder works at its head end; its rod end only breathes") {
  const Built circuit(with_supply("normally-closed-three-way-valve 1V1 { a by lever }\n"
                                  "spring-return-cylinder 1A1 { bore 40 mm, rod 20 mm, stroke 100 mm }\n"
                                  "pressure 0P1.P -- 1V1.P\n"
                                  "working 1V1.A -- 1A1.A\n"
                                  "return 1V1.T -- 0Z1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.paths("rest").ports.size() == 2);  // one working port and the pump
  CHECK(circuit.reach_of("1V1=a", "1A1", "A").fed_by.size() == 1);
  CHECK(circuit.reach_of("rest", "1A1", "A").to_tank == Reach::ToTank::open);
  CHECK(circuit.words("1V1=a").find("A gets oil of 0P1 and its other side only breathes, so it goes out") != std::string::npos);
  CHECK(circuit.words("rest").find("A is open to the reservoir and its other side only breathes, so its spring brings it back") !=
        std::string::npos);
}

TEST_CASE("a pilot-operated relief stands open when the oil above its main spool is let off") {
  // Venting takes the balancing pressure away, and the main spool opens against its spring alone (common practice).
  const Built circuit(with_supply("pilot-operated-relief-valve 0V2 { setting 120 bar }\n"
                                  "normally-open-two-way-valve 0V3 { a by solenoid 0Y1 }\n"
                                  "pressure 0P1.P -- 0V2.P\n"
                                  "pilot 0V2.X -- 0V3.P\n"
                                  "return 0V2.T -- 0Z1\n"
                                  "return 0V3.A -- 0Z1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.reach_of("rest", "0P1", "P").to_tank == Reach::ToTank::open);
  CHECK(circuit.reach_of("0V3=a", "0P1", "P").to_tank == Reach::ToTank::through_pressure_control);
}

TEST_CASE("a pilot-operated check holds until the opposite line is under pressure") {
  const Built circuit(with_supply("float-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"
                                  "double-pilot-operated-check-valve 1V2 { }\n"
                                  "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                                  "pressure 0P1.P -- 1V1.P\n"
                                  "working 1V1.A -- 1V2.V1\n"
                                  "working 1V1.B -- 1V2.V2\n"
                                  "working 1V2.C1 -- 1A1.A\n"
                                  "working 1V2.C2 -- 1A1.B\n"
                                  "return 1V1.T -- 0Z1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.condition("rest", "1A1", "A") == Condition::trapped);
  CHECK(circuit.condition("rest", "1A1", "B") == Condition::trapped);
  CHECK(circuit.reach_of("1V1=a", "1A1", "B").to_tank == Reach::ToTank::open);
  CHECK(circuit.reach_of("1V1=a", "1A1", "A").fed_by.size() == 1);
}

TEST_CASE("a pilot shifts a valve once its line is under pressure") {
  const Built circuit(with_supply("normally-closed-three-way-valve 1V2 { a by solenoid 1Y1 }\n"
                                  "pilot-operated-four-way-valve 1V1 { }\n"
                                  "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                                  "pressure 0P1.P -- 1V1.P -- 1V2.P\n"
                                  "pilot 1V2.A -- 1V1.X\n"
                                  "working 1V1.A -- 1A1.A\n"
                                  "working 1V1.B -- 1A1.B\n"
                                  "return 1V1.T -- 1V2.T -- 0Z1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.position("rest", "1V1") == "0");
  CHECK(circuit.position("1V2=a", "1V1") == "a");
}

TEST_CASE("a shuttle passes the side under pressure and lets none of it into the other") {
  const Built circuit(with_supply("normally-closed-three-way-valve 1V1 { a by lever }\n"
                                  "normally-closed-three-way-valve 1V2 { a by lever }\n"
                                  "shuttle-valve 1V3 { }\n"
                                  "single-acting-cylinder 1A1 { bore 40 mm, rod 20 mm, stroke 100 mm, load 5 kN pushing in }\n"
                                  "pressure 0P1.P -- 1V1.P -- 1V2.P\n"
                                  "working 1V1.A -- 1V3.1\n"
                                  "working 1V2.A -- 1V3.2\n"
                                  "working 1V3.OUT -- 1A1.A\n"
                                  "return 1V1.T -- 1V2.T -- 0Z1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.reach_of("1V1=a", "1A1", "A").fed_by.size() == 1);
  CHECK(circuit.reach_of("1V1=a", "1A1", "A").to_tank == Reach::ToTank::through_pressure_control);
  CHECK(circuit.condition("1V1=a", "1V3", "2") == Condition::returned);
  CHECK(circuit.reach_of("rest", "1A1", "A").to_tank == Reach::ToTank::open);
}

TEST_CASE("an accumulator keeps pressing when the drive stands") {
  const Built circuit(with_supply("check-valve 0V2 { }\n"
                                  "accumulator 0Z2 { volume 4 L, precharge 60 bar }\n"
                                  "closed-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"
                                  "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                                  "pressure 0P1.P -- 0V2 -- 0Z2 -- 1V1.P\n"
                                  "working 1V1.A -- 1A1.A\n"
                                  "working 1V1.B -- 1A1.B\n"
                                  "return 1V1.T -- 0Z1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.condition("stop", "1V1", "P") == Condition::fed);
  CHECK(circuit.condition("stop", "0P1", "P") != Condition::fed);
  CHECK(circuit.words("stop").find("0Z2 keeps its oil under pressure.") != std::string::npos);
}

TEST_CASE("the suction line is told from the return line") {
  const Built circuit(cylinder_on("tandem-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"));
  CHECK(circuit.condition("1V1=a", "0P1", "S") == Condition::suction);
  CHECK(circuit.condition("1V1=a", "1A1", "B") == Condition::returned);
}

TEST_CASE("a pump that idles presses on nothing, so a counterbalance valve holds the load") {
  const Built circuit(with_supply("open-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"
                                  "counterbalance-valve 1V2 { setting 80 bar }\n"
                                  "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm, vertical rod up, load 5 kN pushing in }\n"
                                  "pressure 0P1.P -- 1V1.P\n"
                                  "working 1V1.A -- 1V2.V\nworking 1V2.C -- 1A1.A\n"
                                  "working 1V1.B -- 1A1.B\npilot 1A1.B -- 1V2.X\n"
                                  "return 1V1.T -- 0Z1\n"
                                  "cycle { step up { 1Y1 on, 1A1 extends 200 mm }, step top { 1Y1 on, 1A1 stands extended } }\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.condition("rest", "1A1", "A") == Condition::trapped);
  CHECK(circuit.condition("rest", "1A1", "B") == Condition::circulates);
  CHECK(circuit.words("rest").find("the oil at A leaves only through a pressure valve and B stands open to the reservoir, with oil of "
                                   "0P1 passing by, so nothing drives it, and a load moves it only by opening that pressure valve.") !=
        std::string::npos);
  CHECK(circuit.words("top").find("In step top: ") == 0);
  CHECK(circuit.words("top").find("so it is pushed against its stop.") != std::string::npos);
}
