#include "support/generator.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <vector>

#include "support/dice.hpp"

namespace ferrule::tests {
namespace {

struct Draft {
  Dice dice;
  std::string parts, runs, cycle;
  int components = 0;
  std::vector<std::string> pressure_ends, return_ends;  // what hangs on the two rails

  void part(const std::string& text) {
    parts += text + '\n';
    ++components;
  }
  void run(const std::string& text) { runs += text + '\n'; }
};

constexpr std::string_view working_pipe = "{tube 20 x 2 mm, length 2 m, rated 250 bar}";

void add_supply(Draft& draft) {
  draft.part("reservoir 0Z1 { volume 200 L, breather }");
  draft.part("electric-motor 0M1 { power 15 kW, speed 1450 rpm }");
  const bool variable = draft.dice.below(3) == 0;
  if (variable) {
    draft.part("pressure-compensated-pump 0P1 { displacement 28 cm3/rev, driven-by 0M1, volumetric 94 %, mechanical 91 %, "
               "full-stroke-up-to 135 bar, zero-at 140 bar, rated 250 bar }");
    draft.run("drain 0P1.L -- {hose DN 12, length 1 m} -- 0Z1");
  } else {
    draft.part("fixed-pump 0P1 { displacement 25 cm3/rev, driven-by 0M1, volumetric 93 %, mechanical 90 %, rated 210 bar }");
  }
  draft.part("relief-valve 0V1 { cracking 150 bar, full-flow 160 bar at 40 L/min, rated 315 bar }");
  draft.part("return-filter 0Z2 { rating 10 um, drop 0.5 bar at 80 L/min, bypass 1.7 bar }");
  std::string line = "pressure 0P1.P -- 0V1.P";
  if (draft.dice.below(2) == 0) {
    draft.part("check-valve 0V2 { cracking 0.5 bar, drop 1.5 bar at 60 L/min, rated 315 bar }");
    line += " -- 0V2";
  }
  if (draft.dice.below(2) == 0) {
    draft.part("gauge-isolator 0Z3 { closed, by push-button }");
    draft.part("gauge 0Z4 { range 0 to 250 bar }");
    draft.run("pressure 0P1.P -- 0Z3 -- 0Z4");
  }
  const bool strainer = draft.dice.below(2) == 0;
  if (strainer) draft.part("strainer 0Z5 { rating 125 um, drop 0.02 bar at 60 L/min }");
  draft.run(fmt::format("suction 0Z1 -- {}{{hose DN 50, length 0.6 m, losses 1.0}} -- 0P1.S", strainer ? "0Z5 -- " : ""));
  draft.run("return 0V1.T -- 0Z1");
  draft.pressure_ends.push_back(line);
}

std::string four_way(Draft& draft, int n) {
  // Side by side on one pump only centres that block P work: any other would let the pump off while its neighbours move.
  constexpr std::array kinds{"closed-centre-valve", "float-centre-valve"};
  return fmt::format("{} {}V1 {{ a by solenoid {}Y1, b by solenoid {}Y2, drop 4 bar at 40 L/min, rated 315 bar, T rated 160 bar }}",
                     kinds[static_cast<std::size_t>(draft.dice.below(2))], n, n, n);
}

std::string cylinder(int n) {
  return fmt::format("cylinder {}A1 \"unit {}\" {{ bore 63 mm, rod 36 mm, stroke 400 mm, friction 0.5 kN, rated 210 bar, horizontal }}",
                     n, n);
}

void steps_of_cylinder(Draft& draft, int n) {
  draft.cycle += fmt::format("  step out-{0} {{ {0}Y1 on, {0}A1 extends 300 mm against 10 kN }}\n", n);
  draft.cycle += fmt::format("  step in-{0} {{ {0}Y2 on, {0}A1 retracts 300 mm against 1 kN }}\n", n);
}

void on_rails(Draft& draft, int n) {
  draft.pressure_ends.push_back(fmt::format("{}V1.P", n));
  draft.return_ends.push_back(fmt::format("{}V1.T", n));
}

void plain(Draft& draft, int n) {
  draft.part(four_way(draft, n));
  draft.part(cylinder(n));
  draft.run(fmt::format("working {0}V1.A -- {1} -- {0}A1.A", n, working_pipe));
  draft.run(fmt::format("working {0}V1.B -- {1} -- {0}A1.B", n, working_pipe));
  steps_of_cylinder(draft, n);
  on_rails(draft, n);
}

void throttled(Draft& draft, int n) {
  draft.part(four_way(draft, n));
  for (int i = 2; i <= 3; ++i)
    draft.part(fmt::format("one-way-throttle {}V{} {{ drop 10 bar at 20 L/min, check cracking 0.5 bar, check drop 2 bar at 40 L/min, "
                           "rated 315 bar }}", n, i));
  draft.part(cylinder(n));
  draft.run(fmt::format("working {0}V1.A -- {1} -- {0}V2.OUT", n, working_pipe));
  draft.run(fmt::format("working {0}V2.IN -- {0}A1.A", n));
  draft.run(fmt::format("working {0}V1.B -- {1} -- {0}V3.OUT", n, working_pipe));
  draft.run(fmt::format("working {0}V3.IN -- {0}A1.B", n));
  steps_of_cylinder(draft, n);
  on_rails(draft, n);
}

void locked(Draft& draft, int n) {
  draft.part(fmt::format("float-centre-valve {0}V1 {{ a by solenoid {0}Y1, b by solenoid {0}Y2, drop 4 bar at 40 L/min, rated 315 bar }}", n));
  draft.part(fmt::format("double-pilot-operated-check-valve {}V2 {{ cracking 1 bar, drop 3 bar at 40 L/min, ratio 4:1, rated 315 bar }}", n));
  draft.part(cylinder(n));
  draft.run(fmt::format("working {0}V1.A -- {0}V2.V1", n));
  draft.run(fmt::format("working {0}V1.B -- {0}V2.V2", n));
  draft.run(fmt::format("working {0}V2.C1 -- {1} -- {0}A1.A", n, working_pipe));
  draft.run(fmt::format("working {0}V2.C2 -- {1} -- {0}A1.B", n, working_pipe));
  steps_of_cylinder(draft, n);
  on_rails(draft, n);
}

void counterbalanced(Draft& draft, int n) {
  draft.part(four_way(draft, n));
  draft.part(fmt::format("counterbalance-valve {}V2 {{ cracking 90 bar, full-flow 98 bar at 40 L/min, ratio 4:1, drop 5 bar at 40 L/min, "
                         "vented-spring, check cracking 0.5 bar, check drop 3 bar at 40 L/min, rated 350 bar }}", n));
  draft.part(fmt::format("cylinder {}A1 \"lift {}\" {{ bore 63 mm, rod 36 mm, stroke 400 mm, friction 0.5 kN, rated 210 bar, "
                         "vertical rod up, load 18 kN pushing in }}", n, n));
  draft.run(fmt::format("working {0}V1.A -- {1} -- {0}V2.V", n, working_pipe));
  draft.run(fmt::format("working {0}V2.C -- {0}A1.A", n));
  draft.run(fmt::format("working {0}V1.B -- {1} -- {0}A1.B", n, working_pipe));
  draft.run(fmt::format("pilot {0}A1.B -- {0}V2.X", n));
  draft.cycle += fmt::format("  step up-{0} {{ {0}Y1 on, {0}A1 extends 300 mm }}\n  step down-{0} {{ {0}Y2 on, {0}A1 retracts 300 mm }}\n", n);
  on_rails(draft, n);
}

void motor(Draft& draft, int n) {
  draft.part(four_way(draft, n));
  draft.part(fmt::format("fixed-motor {}A1 \"turn {}\" {{ displacement 100 cm3/rev, volumetric 93 %, mechanical 91 %, rated 210 bar, "
                         "L at most 3 bar }}", n, n));
  const bool guarded = draft.dice.below(2) == 0;
  for (int i = 2; guarded && i <= 3; ++i)
    draft.part(fmt::format("relief-valve {}V{} {{ cracking 130 bar, full-flow 140 bar at 25 L/min, rated 350 bar }}", n, i));
  draft.run(fmt::format("working {0}V1.A -- {1} -- {0}A1.A{2}", n, working_pipe, guarded ? fmt::format(" -- {0}V2.P -- {0}V3.T", n) : ""));
  draft.run(fmt::format("working {0}V1.B -- {1} -- {0}A1.B{2}", n, working_pipe, guarded ? fmt::format(" -- {0}V3.P -- {0}V2.T", n) : ""));
  draft.run(fmt::format("drain {0}A1.L -- {{hose DN 10, length 2 m}} -- 0Z1", n));
  draft.cycle += fmt::format("  step turn-{0} {{ {0}Y1 on, {0}A1 turns A>B 20 turns against 60 N m }}\n", n);
  on_rails(draft, n);
}

void single_acting(Draft& draft, int n) {
  draft.part(fmt::format("valve {0}V1 {{ position 0 A>T by spring, position a P>A by solenoid {0}Y1, drop 3 bar at 40 L/min, rated 315 bar }}", n));
  draft.part(fmt::format("spring-return-cylinder {}A1 \"stop {}\" {{ bore 40 mm, rod 22 mm, stroke 60 mm, friction 0.2 kN, "
                         "spring-retracted 0.2 kN, spring-extended 0.5 kN, rated 210 bar, horizontal }}", n, n));
  draft.run(fmt::format("working {0}V1.A -- {1} -- {0}A1.A", n, working_pipe));
  draft.cycle += fmt::format("  step stop-{0} {{ {0}Y1 on, {0}A1 extends 50 mm against 1 kN }}\n", n);
  on_rails(draft, n);
}

void reduced(Draft& draft, int n) {
  draft.part(fmt::format("reducing-valve {}V2 {{ setting 60 bar, drop 5 bar at 40 L/min, rated 315 bar }}", n));
  draft.part(four_way(draft, n));
  draft.part(cylinder(n));
  draft.run(fmt::format("pressure {0}V2.OUT -- {0}V1.P", n));
  draft.run(fmt::format("drain {0}V2.Y -- 0Z1", n));
  draft.run(fmt::format("working {0}V1.A -- {1} -- {0}A1.A", n, working_pipe));
  draft.run(fmt::format("working {0}V1.B -- {1} -- {0}A1.B", n, working_pipe));
  steps_of_cylinder(draft, n);
  draft.pressure_ends.push_back(fmt::format("{}V2.IN", n));
  draft.return_ends.push_back(fmt::format("{}V1.T", n));
}

// A cycle may have 2000 steps; branches beyond these stand still.
constexpr int most_branches_in_cycle = 900;

using Branch = void (*)(Draft&, int);
constexpr std::array<Branch, 8> branches{plain, throttled, plain, locked, counterbalanced, motor, single_acting, reduced};

Draft drafted(int components, std::uint32_t seed) {
  Draft draft{Dice(seed), {}, {}, {}, 0, {}, {}};
  add_supply(draft);
  std::string cycle;
  for (int n = 1; n == 1 || draft.components < components - 2; ++n) {
    branches[static_cast<std::size_t>(draft.dice.below(static_cast<int>(branches.size())))](draft, n);
    if (n == most_branches_in_cycle) cycle = draft.cycle;
  }
  if (!cycle.empty()) draft.cycle = cycle;
  return draft;
}

std::string joined(const std::vector<std::string>& ends) {
  std::string text;
  for (const std::string& end : ends) text += (text.empty() ? "" : " -- ") + end;
  return text;
}

}  // namespace

std::string generated_circuit(int components, std::uint32_t seed) {
  Draft draft = drafted(components, seed);
  const std::string supply = draft.pressure_ends.front();
  draft.pressure_ends.erase(draft.pressure_ends.begin());
  return fmt::format(
      "circuit \"Generated {0}\" {{ \"made by seed {0}\", ambient 20 degC }}\n"
      "fluid mineral-oil {{ grade ISO VG 46, temperature 45 degC }}\n"
      "{1}every line {{ roughness 0.0015 mm }}\n{2}"
      "{3} -- {{tube 25 x 3 mm, length 2 m, losses 2.0, rated 250 bar}} -- {4}\n"
      "return {5} -- {{tube 35 x 2 mm, length 2 m}} -- 0Z2 -- 0Z1\n"
      "cycle {{\n{6}  step waiting {{ for 10 s }}\n}}\n",
      seed, draft.parts, draft.runs, supply, joined(draft.pressure_ends), joined(draft.return_ends), draft.cycle);
}

std::string generated_graph(int components, std::uint32_t seed) {
  const Draft draft = drafted(components, seed);
  std::string text = "graph g {\n";
  const auto tag_of = [](std::string_view end) { return end.substr(0, end.find('.')); };
  const auto edges_of = [&](std::string_view run) {
    std::string_view before;
    std::size_t at = run.find(' ');
    while (at < run.size()) {
      const std::size_t stop = std::min(run.find(" -- ", at + 1), run.size());
      const std::string_view end = run.substr(at + 1, stop - at - 1);
      if (!end.starts_with("{")) {
        if (!before.empty()) text += fmt::format("  \"{}\" -- \"{}\";\n", tag_of(before), tag_of(end));
        before = end;
      }
      at = stop == run.size() ? stop : stop + 3;
    }
  };
  std::size_t begin = 0;
  for (std::size_t end; (end = draft.runs.find('\n', begin)) != std::string::npos; begin = end + 1)
    edges_of(std::string_view(draft.runs).substr(begin, end - begin));
  edges_of(joined(draft.pressure_ends));
  edges_of("return " + joined(draft.return_ends) + " -- 0Z2 -- 0Z1");
  return text + "}\n";
}

}  // namespace ferrule::tests
