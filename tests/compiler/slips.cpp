// One slip, one message, at the place where the hand slipped.
#include <set>

#include <catch2/catch.hpp>

#include "compiler/language/faults.hpp"
#include "compiler/language/formula.hpp"
#include "compiler/text.hpp"

using namespace ferrule;
using namespace ferrule::tests;

namespace {

struct Slip {
  const char* name;
  const char* line;      // put behind the machine, which has 13 lines
  const char* expected;
};

}  // namespace

TEST_CASE("a line with one slip gives one message at its place") {
  const Slip slip = GENERATE(values<Slip>({
      {"missing unit", "let a = 3\ngauge 0Z4 { range 0 to 250 }\npressure 0P1.P -- 0Z4", "15:19 D-01 `0` has no unit; `range` takes a pressure\n"},
      {"sum of two dimensions", "let a = 10 L/min + 2 bar", "14:9 D-02 10 L/min and 2 bar cannot be added: a flow and a pressure\n"},
      {"cycle of names", "let a = b + 1 bar\nlet b = 2 * a", "14:5 N-12 `a` is computed from itself\n"},
      {"name twice", "let a = 1 bar\nlet a = 2 bar", "15:5 N-11 `a` is given two values\n"},
      {"too large", "let a = 1e300 m * 1e300 m", "14:9 D-06 `1e300 m * 1e300 m` is not a number that can be computed with\n"},
      {"unknown tag in a run", "pressure 0P1.P -- 7V7.P", "14:19 N-02 no part has the tag `7V7`\n"},
      {"unknown kind", "gage 0Z4 { range 0 to 250 bar }\npressure 0P1.P -- 0Z4", "14:1 N-01 `gage` is no kind of component\n"},
      {"tag twice", "gauge 0V1 { range 0 to 250 bar }", "14:7 F-06 the tag `0V1` is used twice\n"},
      {"port that is not there", "pressure 0P1.Q -- 0V1.P", "14:10 N-03 `0P1` has no port `Q`\n"},
      {"relief valve in a line", "pressure 0P1.P -- 0V1 -- 1V1.P", "14:19 T-52 `0V1` does not stand in a line: relief-valve is not passed from end to end\n"},
      {"end without its port", "pressure 0P1.P -- 1V1", "14:19 T-52 the run ends at `1V1` without saying at which port\n"},
      {"return run backwards", "return 0Z1 -- 1V1.T", "14:8 T-54 a return run begins at the reservoir, where its oil ends\n"},
      {"pressure run backwards", "pressure 1V1.P -- 0P1.P", "14:19 T-54 a pressure run ends at a pump outlet, where its oil comes from\n"},
      {"port twice in a run", "pressure 0P1.P -- 0V1.P -- 0P1.P", "14:28 T-55 `0P1.P` stands twice in this run\n"},
      {"line to itself", "working 1V1.A -- {hose DN 12, length 1 m} -- 1V1.A", "14:46 F-11 the line joins `1V1.A` to itself\n"},
      {"way that is none", "pressure 0P1.P -- 0V1.T>P -- 1V1.P", "14:19 T-53 `0V1` has no way from T to P\n"},
      {"dash missing", "pressure 0P1.P 0V1.P", "14:16 T-50 `--` is missing before `0V1.P`\n"},
      {"function misspelt", "presure 0P1.P -- 0V1.P", "14:1 T-51 `presure` is no function of a line\n"},
      {"plugged and joined", "plugged 1V1.A", "14:9 N-23 `1V1.A` is plugged, but a run joins it\n"},
      {"include that is missing", "include \"not-there.fer\"", "14:9 N-16 `not-there.fer` cannot be read: there is no such file\n"},
      {"include that leaves the project", "include \"../etc/passwd\"", "14:9 N-18 `../etc/passwd` is not inside the project\n"},
      {"every of nothing", "every pipe { roughness 1 mm }", "14:7 N-01 `pipe` is no kind of component\n"},
      {"plain nonsense", "hello", "14:1 T-43 `hello` is neither a kind of component nor a statement\n"},
  }));
  INFO(slip.name);
  CHECK(told(machine + slip.line + "\n") == slip.expected);
}

TEST_CASE("a block with one slip gives one message at its place") {
  const Slip slip = GENERATE(values<Slip>({
      {"unknown fact", "bore 63 mm, rod 36 mm, strok 400 mm", "1:39 N-04 `strok` is not a fact of cylinder\n"},
      {"fact of another kind", "bore 63 mm, rod 36 mm, stroke 1 m, adjustment 1 bar", "1:51 N-04 "},
      {"fact twice", "bore 63 mm, rod 36 mm, stroke 1 m, rod 30 mm", "1:51 N-10 `rod` is stated twice\n"},
      {"unknown unit", "bore 63 mn, rod 36 mm, stroke 1 m", "1:24 D-04 `mn` is no unit; `bore` takes a length\n"},
      {"wrong dimension", "bore 63 bar, rod 36 mm, stroke 1 m", "1:21 D-03 `bore` takes a length, but `63 bar` is a pressure\n"},
      {"no value", "bore, rod 36 mm, stroke 1 m", "1:20 D-07 `bore` needs a value: a length\n"},
      {"comma missing", "bore 63 mm rod 36 mm, stroke 1 m", "1:27 T-41 `rod` begins a new fact, but no comma stands before it\n"},
      {"exchanged", "bore 36 mm, rod 63 mm, stroke 1 m", "1:28 D-08 `rod` of 1A1 is 63 mm, but it has to be below `bore`, 36 mm\n"},
      {"out of limits", "bore 63 m, rod 36 mm, stroke 1 m", "1:16 D-05 `bore 63 m` is above 2000 mm, the most that its definition allows\n"},
      {"load without its sense", "bore 63 mm, rod 36 mm, stroke 1 m, load 5 kN", "1:60 T-40 `load` needs its sense behind the value\n"},
      {"too little", "bore 63 mm, rod 36 mm", "1:10 D-09 `1A1` is not told enough: cylinder needs `bore`, `rod` and `stroke`\n"},
  }));
  INFO(slip.name);
  const std::string rest = supply + "pressure 0P1.P -- 0V1.P -- 1A1.A\nreturn 1A1.B -- 0Z1\n";
  const std::string all = told("cylinder 1A1 { " + std::string(slip.line) + " }\n" + rest);
  INFO(all);
  CHECK(std::count(all.begin(), all.end(), '\n') == 1);
  CHECK(all.rfind(slip.expected, 0) == 0);
}

TEST_CASE("an unknown tag is told once, with its other uses as places") {
  const auto result = compiled(machine + "pressure 9P9.P -- 0V1.P\nreturn 9P9.L -- 0Z1\nsuction 0Z1 -- 9P9.S\n");
  REQUIRE(result->messages.size() == 1);
  CHECK(result->messages[0].places.size() == 3);
}

TEST_CASE("what is unknown stays silent") {
  CHECK(told(machine + "include \"gone.fer\"\npressure 5P1.P -- 0V1.P\n") == "14:9 N-16 `gone.fer` cannot be read: there is no such file\n");
  CHECK(told(machine + "let a = 1 bar + 1 m\nrelief-valve 0V9 { setting a }\npressure 0P1.P -- 0V9.P\nreturn 0V9.T -- 0Z1\n") ==
        "14:9 D-02 1 bar and 1 m cannot be added: a pressure and a length\n");
}

TEST_CASE("open ports are told with what they are for; a group without a reservoir is told once") {
  CHECK(told(machine + "cylinder 2A1 { bore 63 mm, rod 36 mm, stroke 1 m }\nworking 0P1.P -- 2A1.A\n") == "14:10 F-09 `2A1.B` is joined to nothing\n");
  CHECK(told(machine + "gauge 3Z1 { range 0 to 250 bar }\ngauge 3Z2 { range 0 to 250 bar }\npressure 3Z1 -- 3Z2\n") ==
        "14:7 F-10 no reservoir is joined to `3Z1` and the part that it is joined with\n");
}

TEST_CASE("includes bring their statements once, and a cycle of them is told once") {
  surroundings().files = {{"parts/more.fer", "gauge 0Z4 { range 0 to 250 bar }\ninclude \"../main.fer\"\n"}, {"parts/pipes.fer", "pressure 0P1.P -- 0Z4\n"}};
  const auto result = compiled(machine + "include \"parts/more.fer\"\ninclude \"parts/pipes.fer\"\ninclude \"parts/pipes.fer\"\n");
  surroundings().files.clear();
  CHECK(told(*result) == "2:9 N-17 `main.fer` includes itself by way of `parts/more.fer`\n");
  CHECK(result->circuit.part_named("0Z4"));
  CHECK(result->files == std::vector<std::string>{"main.fer", "parts/more.fer", "parts/pipes.fer"});
}

TEST_CASE("values compute as on a board") {
  const auto bore = [](const std::string& value) {
    const auto result = compiled("let wall = 2 mm\nlet outside = wall * 8\ncylinder 1A1 { bore " + value + " }\n");
    return result->circuit.parts[result->circuit.part_named("1A1")].si("bore").value_or(-1);
  };
  CHECK(bore("1 1/4 in") == Approx(0.03175));        // 1 in = 25.4 mm exactly
  CHECK(bore("outside - 2 * wall") == Approx(0.012));
  CHECK(bore("sqrt (9 mm * 16 mm)") == Approx(0.012));
  CHECK(bore("max (3 mm and 5 mm)") == Approx(0.005));
  CHECK(bore("sqrt (4 * 1000 mm2 / pi)") == Approx(0.0356825));
}

TEST_CASE("a pressure is gauge unless `abs` follows") {
  const auto result = compiled("accumulator 1Z1 { volume 1 L, precharge 91 bar abs }\n");
  // Standard atmosphere 1.01325 bar (ISO 2533).
  CHECK(*result->circuit.parts[result->circuit.part_named("1Z1")].si("precharge") == Approx((91 - 1.01325) * 1e5));
}

TEST_CASE("codes and names of the faults of a text are each given once") {
  std::set<std::string_view> codes, rules;
  for (const TextFault* fault : text_faults()) {
    INFO(fault->code);
    CHECK(codes.insert(fault->code).second);
    CHECK(rules.insert(fault->rule).second);
    CHECK(!fault->why.empty());
  }
}
