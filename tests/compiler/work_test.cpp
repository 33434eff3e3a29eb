// What a circuit is there for, read from its text: every form of the language page, sections 4 and 6.
#include <catch2/catch.hpp>

#include "compiler/built.hpp"

using built::Built;
using built::with_supply;
using namespace ferrule;

namespace {

const std::string parts =
    "closed-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2 }\n"
    "closed-centre-valve 2V1 { a by lever, b by lever }\n"
    "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 400 mm }\n"
    "cylinder 1A2 { bore 50 mm, rod 28 mm, stroke 400 mm, vertical rod down, mass 200 kg }\n"
    "fixed-motor 2A1 { displacement 50 cm3/rev }\n"
    "accumulator 0Z2 { volume 4 L, precharge 60 bar }\n"
    "pressure-switch 0S1 { rising 120 bar, falling 90 bar }\n"
    "limit-switch 1S1 { on 1A1, at 300 mm }\n"
    "pressure 0P1.P -- 1V1.P -- 2V1.P -- 0Z2 -- 0S1\n"
    "working 1V1.A -- 1A1.A -- 1A2.A\nworking 1V1.B -- 1A1.B -- 1A2.B\n"
    "working 2V1.A -- 2A1.A\nworking 2V1.B -- 2A1.B\n"
    "return 1V1.T -- 2V1.T -- 0Z1\n";

Built circuit_with(const std::string& work) { return Built(with_supply(parts + work)); }

std::string messages_of(const std::string& work) {
  const std::string all = circuit_with(work).messages();
  // Line numbers count the parts above; they are not the point here.
  std::string text;
  std::istringstream lines(all);
  for (std::string line; std::getline(lines, line);) text += line.substr(line.find(' ') + 1) + "\n";
  return text;
}

const Step& only_step(const Built& circuit) {
  REQUIRE(circuit.messages() == "");
  REQUIRE(circuit.circuit.work.steps.size() == 1);
  return circuit.circuit.work.steps.rows.front();
}

}  // namespace

TEST_CASE("a step: what is switched, what moves, how it ends") {
  const Built circuit = circuit_with(
      "cycle { \"Press and let go.\"\n"
      "  step press-on \"Press the ring home\" { 1Y1 on, 2V1 lever a at 38 L/min, 0Z2 gas 140 bar,\n"
      "    1A1 extends 380 mm against 25 kN, 2A1 turns A>B 12 turns against 160 N m, until 0S1 opens, for 2 s }\n"
      "}\n");
  const Step& step = only_step(circuit);
  CHECK(circuit.circuit.work.text == "Press and let go.");
  CHECK(step.name == "press-on");
  CHECK(step.text == "Press the ring home");
  REQUIRE(step.commands.size() == 3);
  CHECK(step.commands[0].kind == Command::Kind::on);
  CHECK(step.commands[0].solenoid == "1Y1");
  CHECK(step.commands[0].position == 0);
  CHECK(step.commands[1].kind == Command::Kind::lever);
  CHECK(step.commands[1].amount->si == Approx(38e-3 / 60));
  CHECK(step.commands[2].kind == Command::Kind::gas);
  CHECK(step.commands[2].amount->si == Approx(140e5));
  REQUIRE(step.motions.size() == 2);
  CHECK(step.motions[0].kind == Motion::Kind::extends);
  CHECK(step.motions[0].travel->si == Approx(0.38));
  CHECK(step.motions[0].load.force->si == Approx(25e3));
  CHECK(step.motions[0].load.sense == Load::Sense::against);
  CHECK(step.motions[1].kind == Motion::Kind::turns_ab);
  CHECK(step.motions[1].travel->si == Approx(12 * 2 * 3.14159265));
  CHECK(step.motions[1].load.force->si == Approx(160));
  CHECK(step.until == "0S1 opens");
  CHECK(step.until_part == circuit.part("0S1"));
  CHECK(step.lasts->si == Approx(2));
}

TEST_CASE("loads that keep their sense, standing, holding, pressing, still") {
  const Built circuit = circuit_with(
      "cycle {\n"
      "  step a { 1A2 extends 100 mm with 42 kN pushing in, 2A1 turns B>A with 30 N m turning A>B, until \"operator\" }\n"
      "  step b { 1A2 still, 1A1 stands at its stop, 2A1 held by 1A1, until 1S1 }\n"
      "  step c { 1A1 stands extended, 1A2 presses for 3 s, 2A1 stands }\n"
      "  step d { 1A1 held with 5 kN pulling out, 1A2 stands at 200 mm }\n"
      "}\n");
  REQUIRE(circuit.messages() == "");
  const auto& steps = circuit.circuit.work.steps.rows;
  REQUIRE(steps.size() == 4);
  CHECK(steps[0].motions[0].load.sense == Load::Sense::pushing_in);
  CHECK(steps[0].motions[1].load.sense == Load::Sense::turning_ab);
  CHECK(steps[0].until == "operator");
  CHECK(steps[1].motions[0].kind == Motion::Kind::extends);
  CHECK(steps[1].motions[0].load.force->si == Approx(42e3));
  CHECK(steps[1].motions[1].where == "at its stop");
  CHECK(steps[1].motions[2].held_by == "1A1");
  CHECK(steps[1].until == "1S1");
  CHECK(steps[2].motions[0].where == "extended");
  CHECK(steps[2].motions[1].lasts->si == Approx(3));
  CHECK(steps[3].motions[0].load.sense == Load::Sense::pulling_out);
  CHECK(steps[3].motions[1].travel->si == Approx(0.2));
  CHECK(steps[0].text == "A");
}

TEST_CASE("tied actuators are spoken of by the name of the tie") {
  const Built circuit = circuit_with("tie pair { 1A1, 1A2 }\ncycle { step up { pair extends 100 mm with 60 kN pushing in } }\n");
  const Step& step = only_step(circuit);
  REQUIRE(step.motions.size() == 1);
  CHECK(step.motions[0].tie == 0);
  CHECK(step.motions[0].actuator == circuit.part("1A1"));
}

TEST_CASE("control rules join terms by and, or") {
  const Built circuit = circuit_with(
      "1Y1 on whenever 0S1 closed and 2A1 turns or \"start pressed\"\n"
      "1Y2 on from 0S1 closes until \"cure timer\"\n"
      "never 1Y1 with 1Y2\n"
      "1Y2 only with 2V1\n"
      "0M1 running whenever \"start pressed\"\n"
      "cycle { step fill { for 5 s, until 0S1 opens } }\n");
  REQUIRE(circuit.messages() == "");
  const auto& rules = circuit.circuit.work.control;
  REQUIRE(rules.size() == 5);
  REQUIRE(rules[0].any_of_all.size() == 2);
  CHECK(rules[0].any_of_all[0].size() == 2);
  CHECK(rules[0].any_of_all[0][0].state == "closed");
  CHECK(rules[0].any_of_all[1][0].text == "start pressed");
  CHECK(rules[1].kind == ControlRule::Kind::from_until);
  CHECK(rules[1].from.state == "closes");
  CHECK(rules[1].until.text == "cure timer");
  CHECK(rules[2].kind == ControlRule::Kind::never_with);
  CHECK(rules[3].kind == ControlRule::Kind::only_with);
  CHECK(rules[4].command.kind == Command::Kind::running);
}

TEST_CASE("requirements compare any result") {
  const Built circuit = circuit_with(
      "cycle { step up-1 { 1Y1 on, 1A1 extends 100 mm }, step up-2 { 1Y1 on, 1A1 extends 50 mm } }\n"
      "require 1A1.speed at most 0.3 m/s during up-1 and up-2\n"
      "require up-1.time + up-2.time at most 4 min\n"
      "require up-1.time between 5 and 7 s\n"
      "require 0P1.P.flow is 12 L/min within 3 % from up-1 until up-2\n"
      "require 1A1.force at least 35 kN while 0S1 above 120 bar and 1Y1 on\n"
      "require 2A1.speed at least 50 rpm\n"
      "require return.velocity at most 3 m/s\n"
      "require oil.temperature at most 60 degC\n"
      "require cycle.time at most 75 s\n");
  REQUIRE(circuit.messages() == "");
  const auto& all = circuit.circuit.requirements;
  REQUIRE(all.size() == 9);
  CHECK(all[0].address == std::vector<std::string>{"1A1", "speed"});
  CHECK(all[0].comparison == "at most");
  CHECK(all[0].during == "up-1 and up-2");
  CHECK(all[1].address == std::vector<std::string>{"up-1", "time", "+", "up-2", "time"});
  CHECK(all[1].values[0].si == Approx(240));
  CHECK(all[2].comparison == "between");
  CHECK(all[2].values[0].si == Approx(5));
  CHECK(all[2].values[1].si == Approx(7));
  CHECK(all[3].address == std::vector<std::string>{"0P1", "P", "flow"});
  CHECK(all[3].comparison == "within");
  CHECK(all[3].values[1].si == Approx(0.03));
  CHECK(all[3].from == "up-1");
  CHECK(all[3].to == "up-2");
  CHECK(all[4].while_ == "0S1 above 120 bar and 1Y1 on");
  REQUIRE(all[4].bounds.size() == 1);
  CHECK(all[4].bounds[0].value.si == Approx(120e5));
  CHECK(all[4].conditions.size() == 1);
}

TEST_CASE("exceptions and questions") {
  const Built circuit = circuit_with(
      "accept tank-too-small on 0Z1 because \"runs four hours a day\"\n"
      "accept P-01 on 0P1 because \"bench\" by \"plant safety\" date 2026-03-01 until 2027-03-01\n"
      "accept gauge-unprotected on circuit because \"test\" { by \"hydraulics group\", date 2026-03-01 }\n"
      "ask \"How fast?\" { result 1A1.speed, tolerance 5 %, marks 2 }\n"
      "ask \"Which valve limits the pressure?\" { answer \"0V1\" }\n");
  REQUIRE(circuit.messages() == "");
  REQUIRE(circuit.circuit.accepts.size() == 3);
  CHECK(circuit.circuit.accepts[1].by == "plant safety");
  CHECK(circuit.circuit.accepts[1].date == "2026-03-01");
  CHECK(circuit.circuit.accepts[1].until == "2027-03-01");
  CHECK(circuit.circuit.accepts[2].by == "hydraulics group");
  REQUIRE(circuit.circuit.questions.size() == 2);
  CHECK(circuit.circuit.questions[0].result == "1A1.speed");
  CHECK(circuit.circuit.questions[0].tolerance == Approx(0.05));
  CHECK(circuit.circuit.questions[0].marks == 2);
  CHECK(circuit.circuit.questions[1].answer == "0V1");
}

TEST_CASE("a load against the motion is refused where a weight acts always") {
  CHECK(messages_of("cycle { step up { 1Y1 on, 1A2 extends 100 mm against 2 kN } }\n") ==
        "D-31 a load `against` the motion turns round with it, but the `mass` of 1A2 acts always in one sense "
        "| write `with ... pushing in` or `with ... pulling out`, the whole load on the rod\n");
}

TEST_CASE("words that are not known are told once, with what may be meant") {
  CHECK(messages_of("cycle { step up { 1Y9 on, 1A1 extends 10 mm }, step down { 1Y9 on } }\n").find("N-02 no part, solenoid or tie has the tag `1Y9`") == 0);
  CHECK(messages_of("cycle { step up { 1A1 extend 10 mm } }\n") == "T-58 `extend` is nothing that 1A1 could do | write `extends`\n");
  CHECK(messages_of("cycle { step up { 2V1 lever c } }\n") == "N-06 2V1 has no position `c` | it has `a`, `0` and `b`\n");
  CHECK(messages_of("cycle { step up { 1A1 turns A>B } }\n") == "N-31 1A1 has a rod: it extends or retracts | write `extends` or `retracts`\n");
  CHECK(messages_of("cycle { step up { 0Z1 extends 10 mm } }\n").find("N-31 0Z1 is no actuator") == 0);
  CHECK(messages_of("cycle { step up { 1Y1 on } }\nrequire 1A1.speed at most 1 m/s during pu\n").find("N-08 the cycle has no step `pu` | write `up`") == 0);
  CHECK(messages_of("require 1A1.sped at most 1 m/s\n").find("N-32 `sped` is no result that is computed | write `speed`") == 0);
  CHECK(messages_of("require 1A1.force at most 12 bar\n").find("D-03 ") == 0);
  CHECK(messages_of("require 0P1.Q.pressure at most 12 bar\n").find("N-03 0P1 has no port `Q`") == 0);
  CHECK(messages_of("cycle { step up { 1Y1 on }, step up { 1Y2 on } }\n").find("N-33 there are two steps named up") == 0);
  CHECK(messages_of("cycle { stop up { 1Y1 on } }\n").find("T-58 a cycle is made of steps; `stop` is none | write `step`") == 0);
  CHECK(messages_of("1Y1 on when 1Y2\n").find("whenever") != std::string::npos);
  CHECK(messages_of("accept tank-too-small on 0Z1\n").find("T-40 `accept` needs the reason") == 0);
  CHECK(messages_of("cycle { step up { 1A1 extends 10 mm against 2 kN, 1A1 presses } }\n").find("N-10 step up says twice what 1A1 does") == 0);
}
