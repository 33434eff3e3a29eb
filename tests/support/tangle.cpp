#include "support/tangle.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <vector>

#include "support/dice.hpp"

namespace ferrule::tests {
namespace {

// A kind with ports to be joined anywhere, ports that lead to the reservoir, and facts; `{n}` is a number from 1 to 9, the same for the whole part.
struct Kind {
  std::string_view name, anywhere, home, facts;
};

constexpr std::array kinds{
    Kind{"orifice", "1 2", "", "diameter 0.{n} mm, coefficient 0.7"},
    Kind{"throttle", "1 2", "", "drop {n} bar at 10 L/min"},
    Kind{"one-way-throttle", "IN OUT", "", "drop {n}0 bar at 20 L/min, check cracking 0.5 bar, check drop 2 bar at 40 L/min"},
    Kind{"check-valve", "IN OUT", "", "cracking 0.{n} bar, drop 1.5 bar at 60 L/min"},
    Kind{"pilot-operated-check-valve", "IN OUT X", "", "cracking 1 bar, ratio {n}:1, drop 3 bar at 40 L/min"},
    Kind{"pilot-to-close-check-valve", "IN OUT X", "", "cracking 1 bar"},
    Kind{"double-pilot-operated-check-valve", "V1 C1 V2 C2", "", "cracking 1 bar, drop 3 bar at 40 L/min, ratio {n}:1"},
    Kind{"relief-valve", "P", "T", "cracking {n}5 bar, full-flow {n}9 bar at 30 L/min"},
    Kind{"relief-valve", "P T", "", "setting {n}0 bar"},
    Kind{"unloading-valve", "P X", "T", "cracking {n}5 bar, full-flow {n}8 bar, drop 1.4 bar at 40 L/min"},
    Kind{"sequence-valve", "IN OUT", "Y", "cracking {n}0 bar, full-flow {n}6 bar at 20 L/min"},
    Kind{"remote-sequence-valve", "IN OUT X", "Y", "cracking {n}0 bar, full-flow {n}6 bar at 20 L/min"},
    Kind{"reducing-valve", "IN OUT", "Y", "setting {n}0 bar, drop 5 bar at 40 L/min"},
    Kind{"three-way-reducing-valve", "P A", "T", "setting {n}0 bar, drop 5 bar at 40 L/min"},
    Kind{"counterbalance-valve", "C V X", "", "cracking {n}0 bar, full-flow {n}9 bar at 40 L/min, ratio 4:1, drop 6 bar at 60 L/min, vented-spring"},
    Kind{"flow-control", "IN OUT", "", "flow {n} L/min, least-drop 6 bar"},
    Kind{"three-way-flow-control", "IN OUT", "T", "flow {n} L/min, least-drop 6 bar"},
    Kind{"hose-burst-valve", "1 2", "", "drop 1.5 bar at 8 L/min, closing-flow 1{n} L/min"},
    Kind{"flow-divider", "P A B", "", "drop {n} bar at 20 L/min"},
    Kind{"rotary-flow-divider", "P A B", "", "displacement {n} cm3/rev"},
    Kind{"priority-valve", "P CF EF", "", "flow {n} L/min"},
    Kind{"shuttle-valve", "1 2 OUT", "", ""},
    Kind{"accumulator", "P", "", "volume {n} L, precharge {n}0 bar"},
    Kind{"cylinder", "A B", "", "bore 63 mm, rod 36 mm, stroke 400 mm, friction 0.{n} kN, load {n} kN pushing in"},
    Kind{"cylinder", "A B", "", "bore 50 mm, rod 28 mm, stroke 300 mm, efficiency 9{n} %, load {n} kN pulling out"},
    Kind{"double-rod-cylinder", "A B", "", "bore 50 mm, rod 28 mm, stroke 300 mm"},
    Kind{"spring-return-cylinder", "A", "", "bore 40 mm, rod 22 mm, stroke 60 mm, spring-retracted 0.{n} kN, spring-extended 1.{n} kN"},
    Kind{"plunger-cylinder", "A", "", "bore 50 mm, stroke 480 mm, friction 0.5 kN, load {n} kN pushing in"},
    Kind{"pressure-intensifier", "P HP", "L", "bore 80 mm, high-bore 4{n} mm, stroke 200 mm"},
    Kind{"fixed-motor", "A B", "L", "displacement {n}0 cm3/rev, volumetric 93 %, mechanical 91 %, load {n}0 N m turning B>A"},
    Kind{"semi-rotary-actuator", "A B", "", "displacement {n}00 cm3/rev, swing 180 deg"},
    Kind{"filter", "IN OUT", "", "rating 10 um, drop 0.{n} bar at 60 L/min, bypass 1.7 bar"},
    Kind{"gauge", "P", "", "range 0 to 250 bar"},
    Kind{"cooler", "IN OUT", "", "drop {n} bar at 60 L/min, duty-per-kelvin 150 W/K"},
    Kind{"flushing-valve", "A B", "T", "setting 1{n} bar, flow 6 L/min"},
    Kind{"closed-centre-valve", "P A B", "T", "a by solenoid {tag}Y1, b by solenoid {tag}Y2, drop {n} bar at 40 L/min"},
    Kind{"tandem-centre-valve", "P A B", "T", "a by solenoid {tag}Y1, b by solenoid {tag}Y2, drop {n} bar at 40 L/min"},
    Kind{"normally-open-two-way-valve", "P A", "", "by solenoid {tag}Y1, drop {n} bar at 20 L/min"},
};

constexpr std::array pumps{
    "fixed-pump 0P1 {{ displacement {}5 cm3/rev, driven-by 0M1, volumetric 93 %, mechanical 90 % }}",
    "pressure-compensated-pump 0P1 {{ displacement {}5 cm3/rev, driven-by 0M1, full-stroke-up-to 135 bar, zero-at 140 bar }}\ndrain 0P1.L -- 0Z1",
    "power-controlled-pump 0P1 {{ displacement {}5 cm3/rev, driven-by 0M1, power 5 kW }}\ndrain 0P1.L -- 0Z1"};

constexpr std::array pipes{"{tube 16 x 2 mm, length 2 m}", "{hose DN 12, length 1 m, rise 1 m}", "{tube 8 x 1 mm, length 4 m, losses 3}"};

std::string with_numbers(std::string_view facts, std::string_view tag, Dice& dice) {
  std::string text;
  const std::string number = std::to_string(1 + dice.below(9));
  for (std::size_t i = 0; i < facts.size(); ++i) {
    if (facts.substr(i).starts_with("{n}")) text += number, i += 2;
    else if (facts.substr(i).starts_with("{tag}")) text += tag, i += 4;
    else text += facts[i];
  }
  return text;
}

std::vector<std::string> words_of(std::string_view list) {
  std::vector<std::string> words;
  for (std::size_t from = 0; from < list.size();) {
    const std::size_t end = std::min(list.find(' ', from), list.size());
    words.emplace_back(list.substr(from, end - from));
    from = end + 1;
  }
  return words;
}

std::string part_of(const std::string& end) { return end.substr(0, end.find('.')); }

// One run through a point; now and then a pipe lies between its ends. Two ports of one part in a row would be read as its
// way through, so such an end goes to the reservoir.
std::string run_through(const std::vector<std::string>& ends, Dice& dice) {
  std::string run, home, last;
  int joined = 0;
  for (const std::string& end : ends) {
    if (part_of(end) == last) {
      home += fmt::format("return {} -- 0Z1\n", end);
      continue;
    }
    if (joined > 0) run += dice.below(3) == 0 ? fmt::format(" -- {} -- ", pipes[static_cast<std::size_t>(dice.below(pipes.size()))]) : " -- ";
    run += end;
    last = part_of(end);
    ++joined;
  }
  if (joined == 1) home += fmt::format("return {} -- 0Z1\n", run);
  return (joined > 1 ? "working " + run + "\n" : "") + home;
}

}  // namespace

std::string tangle(int parts, std::uint32_t seed) {
  Dice dice(seed);
  std::string text = "circuit \"Tangle\" { \"nobody's machine\" }\nfluid mineral-oil { grade ISO VG 46, temperature 45 degC }\n"
                     "reservoir 0Z1 { volume 63 L }\nelectric-motor 0M1 { power 15 kW, speed 1450 rpm }\n";
  text += fmt::format(fmt::runtime(pumps[static_cast<std::size_t>(dice.below(pumps.size()))]), 1 + dice.below(3)) + "\n";
  text += "suction 0Z1 -- 0P1.S\n";
  std::vector<std::vector<std::string>> points(static_cast<std::size_t>(2 + parts / 3));
  points[0].push_back("0P1.P");
  if (dice.below(10) > 0) {
    text += "relief-valve 0V1 { cracking 150 bar, full-flow 160 bar at 40 L/min }\nreturn 0V1.T -- 0Z1\n";
    points[0].push_back("0V1.P");
  }
  for (int i = 1; i <= parts; ++i) {
    const Kind& kind = kinds[static_cast<std::size_t>(dice.below(kinds.size()))];
    const std::string tag = fmt::format("{}X1", i);
    text += fmt::format("{} {} {{ {} }}\n", kind.name, tag, with_numbers(kind.facts, std::to_string(i), dice));
    for (const std::string& port : words_of(kind.home)) text += fmt::format("return {}.{} -- 0Z1\n", tag, port);
    for (const std::string& port : words_of(kind.anywhere)) {
      const auto where = static_cast<std::size_t>(dice.below(static_cast<int>(points.size()) + 1));
      if (where == points.size()) text += fmt::format("return {}.{} -- 0Z1\n", tag, port);
      else points[where].push_back(tag + "." + port);
    }
  }
  for (const std::vector<std::string>& ends : points) text += run_through(ends, dice);
  return text;
}

}  // namespace ferrule::tests
