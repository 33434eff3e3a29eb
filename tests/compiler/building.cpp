// What a text becomes: parts, nodes, lines, elements.
#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>

#include "compiler/text.hpp"

using namespace ferrule;
using namespace ferrule::tests;

namespace {

NodeId node(const Circuit& circuit, const std::string& tag, const std::string& port) {
  const PortId id = circuit.port_of(circuit.part_named(tag), port);
  REQUIRE(id);
  return circuit.ports[id].node;
}

const Element* element(const Circuit& circuit, const std::string& tag, const std::string& name, int position = -1) {
  for (const Element& found : circuit.elements)
    if (circuit.parts[found.part].tag == tag && found.name == name && found.position == position) return &found;
  return nullptr;
}

}  // namespace

TEST_CASE("a whole little machine compiles without a word") { CHECK(told(machine) == ""); }

TEST_CASE("ends that follow one another are one node, a pipe parts two") {
  const auto result = compiled(machine);
  const Circuit& circuit = result->circuit;
  CHECK(node(circuit, "0P1", "P") == node(circuit, "0V1", "P"));
  CHECK(node(circuit, "0V1", "P") == node(circuit, "L7", "1"));
  CHECK(node(circuit, "L7", "2") == node(circuit, "1V1", "P"));
  CHECK(node(circuit, "L7", "1") != node(circuit, "L7", "2"));
}

TEST_CASE("all connections of one reservoir are one node, two reservoirs stay two") {
  const auto result = compiled(supply + "reservoir 9Z1 { volume 5 L }\nreturn 0P1.P -- 9Z1.r\npressure 0V1.P -- 0P1.P\n");
  const Circuit& circuit = result->circuit;
  CHECK(node(circuit, "0Z1", "1") == node(circuit, "0Z1", "2"));
  CHECK(node(circuit, "9Z1", "r") != node(circuit, "0Z1", "1"));
}

TEST_CASE("a tube has its bore from outside and wall, a hose from its nominal size") {
  const auto result = compiled(machine);
  const Circuit& circuit = result->circuit;
  // 16 mm less two walls of 2 mm.
  CHECK(*circuit.parts[circuit.part_named("L7")].si("bore") == Approx(0.012));
  CHECK(circuit.parts[circuit.part_named("L7")].fact("bore")->origin == Origin::derived);
  CHECK(*circuit.parts[circuit.part_named("L1")].si("bore") == Approx(0.032));
  CHECK(element(circuit, "L7", "main")->value(Parameter::length) == Approx(1.5));
}

TEST_CASE("a line without a tag gets the next free one") {
  const auto result = compiled(machine);
  CHECK(result->circuit.lines.rows[0].named == false);
  CHECK(result->circuit.parts[result->circuit.lines.rows[0].part].tag == "L1");
  CHECK(result->circuit.lines.rows[1].named);
}

TEST_CASE("each path of a position is an element with the drop that is stated for it") {
  const auto result = compiled(machine);
  const Circuit& circuit = result->circuit;
  const Element* forth = element(circuit, "1V1", "P>A", 0);
  REQUIRE(forth);
  CHECK(forth->kind == ElementKind::restriction);
  CHECK(*forth->value(Parameter::drop) == Approx(5e5));
  CHECK(*forth->value(Parameter::drop_flow) == Approx(40.0 / 60000));
  CHECK(*element(circuit, "1V1", "P-T", 1)->value(Parameter::drop) == Approx(3e5));
}

TEST_CASE("ports joined in one point lose the stated drop from port to port") {
  const auto result = compiled(supply + R"(valve 1V1 { position 0 P-A-T by spring, position a closed by solenoid 1Y1, drop 6 bar at 40 L/min }
pressure 0P1.P -- 0V1.P -- 1V1.P
return 1V1.T -- 0Z1
plugged 1V1.A
)");
  CHECK(told(*result) == "");
  // Two legs in row from P to T: half of 6 bar each.
  CHECK(*element(result->circuit, "1V1", "P-A-T:P", 0)->value(Parameter::drop) == Approx(3e5));
}

TEST_CASE("rest is where springs bring the valve, else what is said, else the first with a detent") {
  const auto rest = [](const std::string& rows) {
    const auto result = compiled("valve 1V1 { " + rows + " }\n");
    return result->circuit.parts[result->circuit.part_named("1V1")].rest;
  };
  CHECK(rest("position a P>A by solenoid 1Y1, position 0 A>T by spring") == 1);
  CHECK(rest("position a P>A by lever, position b A>T rest") == 1);
  CHECK(rest("position a P>A by lever, position b A>T by lever, rest b") == 1);
  CHECK(rest("position a P>A by lever and detent, position b A>T by lever and detent") == 0);
}

TEST_CASE("the circuit number stands in front of the letter of a tag (ISO 1219-2)") {
  const auto result = compiled(machine + "gauge RV7 { range 0 to 250 bar }\npressure 0P1.P -- RV7\n");
  const auto number = [&](const std::string& tag) { return result->circuit.parts[result->circuit.part_named(tag)].circuit_number; };
  CHECK(number("0P1") == 0);
  CHECK(number("1V1") == 1);
  CHECK(number("RV7") == -1);
}

TEST_CASE("a default may come from another part: the pump turns as its motor does") {
  const auto result = compiled(machine);
  const Part& pump = result->circuit.parts[result->circuit.part_named("0P1")];
  CHECK(*pump.si("speed") == Approx(1450 * 2 * 3.14159265358979 / 60));
  CHECK(pump.fact("volumetric")->origin == Origin::by_default);
  CHECK(element(result->circuit, "0P1", "unit")->find(Parameter::displacement)->origin == Origin::given);
}

TEST_CASE("like copies facts but no solenoids, every reaches what does not state them") {
  const auto result = compiled(machine + R"(every line { roughness 0.01 mm }
tandem-centre-valve 2V1 like 1V1 { a by solenoid 2Y1, b by solenoid 2Y2 }
cylinder 2A1 like 1A1 "second" { stroke 200 mm }
pressure 0P1.P -- {tube 16 x 2 mm, length 1 m, roughness 0.1 mm} -- 2V1.P
working 2V1.A -- 2A1.A
working 2V1.B -- 2A1.B
return 2V1.T -- 0Z1
)");
  CHECK(told(*result) == "");
  const auto value = [&](const std::string& tag, const std::string& fact) { return *result->circuit.parts[result->circuit.part_named(tag)].si(fact); };
  CHECK(value("2A1", "bore") == Approx(0.063));
  CHECK(value("2A1", "stroke") == Approx(0.2));
  CHECK(value("2V1", "drop") == Approx(5e5));
  CHECK(value("L7", "roughness") == Approx(1e-5));
  CHECK(value("L2", "roughness") == Approx(1e-4));
}

TEST_CASE("the order of statements does not change the circuit") {
  std::istringstream lines(machine);
  std::vector<std::string> order;
  for (std::string line; std::getline(lines, line);) order.push_back(line);
  std::string backwards;
  for (auto line = order.rbegin(); line != order.rend(); ++line) backwards += *line + "\n";
  const auto result = compiled(backwards);
  CHECK(told(*result) == "");
  CHECK(result->circuit.nodes.size() == compiled(machine)->circuit.nodes.size());
  CHECK(result->circuit.elements.size() == compiled(machine)->circuit.elements.size());
}

TEST_CASE("a user's own component is the equal of the library's") {
  const auto result = compiled(supply + R"(let crack = 0.7 bar
define soft-stop "own component" {
  port IN "in"
  port OUT "out"
  through IN > OUT
  fact drop : pressure at flow
  inside {
    restriction soft IN - mid { drop }
    one-way back mid > OUT { cracking crack * 2 }
  }
  place modulation
}
soft-stop 1V9 { drop 5 bar at 10 L/min, back cracking 2 bar }
pressure 0P1.P -- 0V1.P -- 1V9 -- 0Z1
)");
  CHECK(told(*result) == "");
  const Circuit& circuit = result->circuit;
  REQUIRE(element(circuit, "1V9", "back"));
  CHECK(*element(circuit, "1V9", "back")->value(Parameter::cracking) == Approx(2e5));
  CHECK(element(circuit, "1V9", "soft")->ends[1] == element(circuit, "1V9", "back")->ends[0]);
  CHECK(node(circuit, "0P1", "P") == node(circuit, "1V9", "IN"));
}

TEST_CASE("an assembly with a number as its tag gives its parts that circuit number") {
  const std::string jack = R"(define jack "cylinder with its valve" {
  assembly {
    tandem-centre-valve V1 { a by solenoid Y1, b by solenoid Y2 }
    cylinder A1 { bore 50 mm, rod 28 mm, stroke 100 mm }
    working V1.A -- A1.A
    working V1.B -- {hose DN 12, length 1 m} -- A1.B
  }
  port P is V1.P
  port T is V1.T
}
)";
  const auto result = compiled(supply + jack + R"(jack 2
jack clamp
pressure 0P1.P -- 0V1.P -- 2.P -- clamp.P
return 2.T -- clamp.T -- 0Z1
)");
  CHECK(told(*result) == "");
  const Circuit& circuit = result->circuit;
  CHECK(circuit.parts[circuit.part_named("2A1")].circuit_number == 2);
  CHECK(node(circuit, "2V1", "A") == node(circuit, "2A1", "A"));
  CHECK(node(circuit, "clamp.V1", "P") == node(circuit, "0P1", "P"));
  CHECK(circuit.parts[circuit.part_named("clamp.A1")].assembly == "clamp");
}

TEST_CASE("an instance of an assembly may say facts of the parts inside, and they go before those of the definition") {
  const auto result = compiled(supply + R"(define pair "cylinder and its guard" {
  assembly {
    cylinder A1 { bore 50 mm, rod 28 mm, stroke 200 mm, friction 100 N }
    relief-valve V1 { setting 100 bar }
    working V1.P -- A1.A
  }
}
define twins "two pairs" {
  assembly {
    pair one { A1 bore 60 mm }
    pair two
  }
}
twins X { one A1 stroke 300 mm, two V1 setting 120 bar }
)");
  const Circuit& circuit = result->circuit;
  const auto si = [&](const char* tag, const char* fact) { return circuit.parts[circuit.part_named(tag)].si(fact).value_or(-1); };
  CHECK(si("X.one.A1", "stroke") == Approx(0.3));
  CHECK(si("X.one.A1", "bore") == Approx(0.06));
  CHECK(si("X.one.A1", "friction") == Approx(100));
  CHECK(si("X.two.A1", "stroke") == Approx(0.2));
  CHECK(si("X.two.V1", "setting") == Approx(120e5));
  CHECK(si("X.one.V1", "setting") == Approx(100e5));
}

// Twice the text takes about twice the time; a search through all facts for each would take four times.
TEST_CASE("many facts in one block are read in a time that grows with their number") {
  const auto seconds = [](int count) {
    std::string text = "valve 1V1 {\n  position 0   P-T   rest\n";
    for (int i = 0; i < count; ++i) text += "  A" + std::to_string(i) + " rated 100 bar\n";
    const auto begin = std::chrono::steady_clock::now();
    compiled(text + "}\n");
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  };
  CHECK(seconds(80'000) < 3 * seconds(40'000) + 0.05);
}

TEST_CASE("a valve or a cycle without end is cut off and told once") {
  std::string rows = "valve 1V1 {\n  position 0   P-T   rest\n", steps = "cycle {\n";
  for (int i = 0; i < 20'000; ++i) {
    rows += "  position a" + std::to_string(i) + "   P>A\n";
    steps += "  step a" + std::to_string(i) + " { for 1 s }\n";
  }
  const auto result = compiled(rows + "}\n" + steps + "}\n");
  CHECK(std::count_if(result->messages.begin(), result->messages.end(), [](const Message& m) { return m.code == "M-13"; }) == 2);
}

TEST_CASE("a small text cannot ask for huge work: assemblies are counted before they are made") {
  std::string bomb = "define a0 \"cell\" { assembly { cylinder A1 { bore 50 mm } } }\n";
  for (int i = 1; i <= 40; ++i) {
    const std::string inner = "a" + std::to_string(i - 1);
    bomb += "define a" + std::to_string(i) + " \"pair\" { assembly {\n" + inner + " x\n" + inner + " y\n} }\n";
  }
  const auto result = compiled(bomb + "a40 big\n");
  CHECK(result->circuit.parts.size() == 0);
  CHECK(told(*result).find("M-10") != std::string::npos);
}

TEST_CASE("an assembly that holds itself is told once") {
  const auto result = compiled("define loop \"itself\" { assembly {\nloop x\n} }\nloop 1\n");
  CHECK(result->messages.size() == 1);
  CHECK(result->messages[0].rule == "assembly-cycle");
}
