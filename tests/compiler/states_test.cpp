// Which states a circuit is judged in, and what is on in each (checks page B.0, language page 4).
#include <catch2/catch.hpp>

#include "compiler/built.hpp"

using built::Built;
using built::with_supply;
using namespace ferrule;

namespace {

std::string two_cylinders(const std::string& rest) {
  return with_supply("closed-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"
                     "closed-centre-valve 2V1 { a by solenoid 2Y1, b by solenoid 2Y2 }\n"
                     "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                     "cylinder 2A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                     "pressure 0P1.P -- 1V1.P -- 2V1.P\n"
                     "working 1V1.A -- 1A1.A\nworking 1V1.B -- 1A1.B\n"
                     "working 2V1.A -- 2A1.A\nworking 2V1.B -- 2A1.B\n"
                     "return 1V1.T -- 2V1.T -- 0Z1\n" +
                     rest);
}

bool runs(const Built& circuit, const std::string& state, const std::string& part) {
  return circuit.state(state).running[circuit.part(part).index];
}

}  // namespace

TEST_CASE("without a cycle: rest, every single actuation, stop; valves side by side on one pump line are not paired") {
  const Built circuit(two_cylinders(""));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.state_names() == "rest | 1V1=a | 1V1=b | 2V1=a | 2V1=b | stop");
  CHECK(circuit.states.dropped == 0);
  CHECK(runs(circuit, "rest", "0P1"));
  CHECK_FALSE(runs(circuit, "stop", "0P1"));
}

TEST_CASE("without a cycle valves in series are paired") {
  const Built circuit(with_supply("normally-closed-three-way-valve 1V1 { a by solenoid 1Y1 }\n"
                                  "normally-closed-three-way-valve 1V2 { a by solenoid 1Y2 }\n"
                                  "single-acting-cylinder 1A1 { bore 40 mm, rod 20 mm, stroke 100 mm, load 5 kN pushing in }\n"
                                  "pressure 0P1.P -- 1V1.P\nworking 1V1.A -- 1V2.P\nworking 1V2.A -- 1A1.A\n"
                                  "return 1V1.T -- 1V2.T -- 0Z1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.state_names() == "rest | 1V1=a | 1V2=a | 1V1=a, 1V2=a | stop");
}

TEST_CASE("a solenoid that works whenever others do follows them") {
  const Built circuit(two_cylinders("normally-open-two-way-valve 0V2 { a by solenoid 0Y1 }\n"
                                    "pressure 0P1.P -- 0V2.P\nreturn 0V2.A -- 0Z1\n"
                                    "0Y1 on whenever 1Y1 or 1Y2\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.position("rest", "0V2") == "0");
  CHECK(circuit.position("1V1=a", "0V2") == "a");
  CHECK(circuit.position("1V1=b", "0V2") == "a");
  CHECK(circuit.position("2V1=a", "0V2") == "0");
}

TEST_CASE("a valve that works only with another brings it along, and what may never meet is no state") {
  const Built circuit(with_supply("normally-closed-three-way-valve 1V1 { a by solenoid 1Y1 }\n"
                                  "normally-closed-three-way-valve 1V2 { a by solenoid 1Y2 }\n"
                                  "normally-closed-three-way-valve 1V3 { a by solenoid 1Y3 }\n"
                                  "single-acting-cylinder 1A1 { bore 40 mm, rod 20 mm, stroke 100 mm, load 5 kN pushing in }\n"
                                  "pressure 0P1.P -- 1V1.P -- 1V3.P\nworking 1V1.A -- 1V2.P\nworking 1V2.A -- 1V3.A -- 1A1.A\n"
                                  "return 1V1.T -- 1V2.T -- 1V3.T -- 0Z1\n"
                                  "1Y2 only with 1Y1\nnever 1Y3 with 1Y1\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.position("1V2=a", "1V1") == "a");
  CHECK(circuit.state_names() == "rest | 1V1=a | 1V2=a | 1V3=a | 1V1=a, 1V2=a | stop");
}

TEST_CASE("with a cycle: rest, its steps, the stop; a step in which nothing works is idle") {
  const Built circuit(two_cylinders("cycle {\n"
                                    "  step out { 1Y1 on, 1A1 extends 200 mm against 5 kN }\n"
                                    "  step in { 1Y2 on, 1A1 retracts 200 mm }\n"
                                    "  step waiting { 1A1 stands retracted, for 5 s }\n"
                                    "}\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.state_names() == "rest | out | in | waiting | stop");
  CHECK(circuit.state("out").state_class == StateClass::work);
  CHECK(circuit.state("waiting").state_class == StateClass::idle);
  CHECK(idle_states(circuit.states) == std::vector<std::size_t>{3});
}

TEST_CASE("a step change that moves two valves has late states") {
  const Built circuit(two_cylinders("cycle {\n"
                                    "  step one { 1Y1 on, 1A1 extends 200 mm }\n"
                                    "  step both { 1Y2 on, 2Y1 on, 1A1 retracts 200 mm, 2A1 extends 200 mm }\n"
                                    "}\n"));
  REQUIRE(circuit.messages() == "");
  // both -> one moves both valves back, one -> both moves both on; with two valves, one late is the other early.
  CHECK(circuit.state_names() == "rest | one | both | stop | one, 1V1 late | one, 1V1 early | both, 1V1 late | both, 1V1 early");
  CHECK(circuit.position("both, 1V1 late", "1V1") == "a");
  CHECK(circuit.position("both, 1V1 late", "2V1") == "a");
  CHECK(circuit.position("both, 1V1 early", "1V1") == "b");
  CHECK(circuit.position("both, 1V1 early", "2V1") == "0");
}

TEST_CASE("a detented valve stays where a pulse put it, also when the machine stops") {
  const Built circuit(with_supply("detented-four-way-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"
                                  "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }\n"
                                  "pressure 0P1.P -- 1V1.P\nworking 1V1.A -- 1A1.A\nworking 1V1.B -- 1A1.B\nreturn 1V1.T -- 0Z1\n"
                                  "cycle {\n"
                                  "  starts 1V1 b\n"
                                  "  step close { 1Y1 pulse, 1A1 extends 200 mm }\n"
                                  "  step hold { 1A1 presses, for 60 s }\n"
                                  "  step open { 1Y2 pulse, 1A1 retracts 200 mm }\n"
                                  "}\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.position("rest", "1V1") == "b");
  CHECK(circuit.position("hold", "1V1") == "a");
  CHECK(circuit.position("open", "1V1") == "b");
  CHECK(circuit.state_names() == "rest | close | hold | open | stop | stop after close");
  CHECK(circuit.position("stop after close", "1V1") == "a");
}

TEST_CASE("a drive that the cycle switches is off at rest") {
  const Built circuit(two_cylinders("0M1 running whenever \"UP pressed\"\n"
                                    "cycle {\n"
                                    "  step up { 0M1 running, 1Y1 on, 1A1 extends 200 mm }\n"
                                    "  step hold { 0M1 stopped, 1A1 held, for 60 s }\n"
                                    "}\n"));
  REQUIRE(circuit.messages() == "");
  CHECK_FALSE(runs(circuit, "rest", "0P1"));
  CHECK(runs(circuit, "up", "0P1"));
  CHECK_FALSE(runs(circuit, "hold", "0P1"));
  CHECK(circuit.paths("hold").standing_pumps.size() == 1);
}

TEST_CASE("a switch latches a solenoid from one moment until the other") {
  const Built circuit(two_cylinders("normally-open-two-way-valve 0V2 { a by solenoid 0Y1 }\n"
                                    "pressure-switch 0S1 { rising 120 bar, falling 90 bar }\n"
                                    "pressure 0P1.P -- 0V2.P -- 0S1\nreturn 0V2.A -- 0Z1\n"
                                    "0Y1 on from 0S1 closes until 0S1 opens\n"
                                    "cycle {\n"
                                    "  step idling { 1A1 stands retracted, until 0S1 closes }\n"
                                    "  step loading { 1A1 stands retracted, until 0S1 opens }\n"
                                    "  step done { 1A1 stands retracted, for 5 s }\n"
                                    "}\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.position("idling", "0V2") == "0");
  CHECK(circuit.position("loading", "0V2") == "a");
  CHECK(circuit.position("done", "0V2") == "0");
}

TEST_CASE("a contact stands as the last moment left it, and before the first so that the moment can come") {
  const Built circuit(with_supply("normally-open-two-way-valve 0V2 { a by solenoid 0Y1 }\n"
                                  "pressure-switch 0S1 { rising 150 bar, falling 120 bar }\n"
                                  "pressure 0P1.P -- 0S1 -- 0V2.P\nreturn 0V2.A -- 0Z1\n"
                                  "0Y1 on whenever 0S1 closed\n"
                                  "cycle {\n"
                                  "  step filling { until 0S1 opens }\n"
                                  "  step full { until 0S1 closes }\n"
                                  "  step filling-again { until \"stop pressed\" }\n"
                                  "}\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.position("filling", "0V2") == "a");
  CHECK(circuit.position("full", "0V2") == "0");
  CHECK(circuit.position("filling-again", "0V2") == "a");
}

TEST_CASE("a rule may hang on a motion, and what a step says goes before the rule") {
  const Built circuit(two_cylinders("normally-open-two-way-valve 0V2 { a by solenoid 0Y1 }\n"
                                    "pressure 0P1.P -- 0V2.P\nreturn 0V2.A -- 0Z1\n"
                                    "0Y1 on whenever 1A1 extends\n"
                                    "cycle {\n"
                                    "  step out { 1Y1 on, 1A1 extends 200 mm }\n"
                                    "  step quiet { 0Y1 off, 1Y1 on, 1A1 extends 10 mm }\n"
                                    "  step in { 1Y2 on, 1A1 retracts 200 mm }\n"
                                    "}\n"));
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.position("out", "0V2") == "a");
  CHECK(circuit.position("quiet", "0V2") == "0");
  CHECK(circuit.position("in", "0V2") == "0");
}

TEST_CASE("a hand pump works only where work is done") {
  const Built circuit("reservoir 0Z1 { volume 5 L }\n"
                      "hand-pump 0P1 { displacement 10 cm3/rev }\n"
                      "plunger-cylinder 1A1 { bore 40 mm, stroke 100 mm, load 20 kN pushing in }\n"
                      "relief-valve 0V1 { setting 300 bar }\n"
                      "suction 0Z1 -- {hose DN 12, length 0.3 m} -- 0P1.S\n"
                      "pressure 0P1.P -- 0V1.P -- 1A1.A\nreturn 0V1.T -- 0Z1\n");
  REQUIRE(circuit.messages() == "");
  CHECK(circuit.state_names() == "rest | running | stop");
  CHECK_FALSE(runs(circuit, "rest", "0P1"));
  CHECK(runs(circuit, "running", "0P1"));
}
