// Totals of the cycles of eight invented machines, against numbers computed by an independent program in another language
// (tests/reference/machine_cycles.csv). Tolerances cover the spread of sensible models.
#include <catch2/catch.hpp>

#include "figures/book_of.hpp"

using namespace ferrule;
using tests::Open;

TEST_CASE("the cycles of eight machines come to the totals computed elsewhere") {
  std::istringstream lines(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/tests/reference/machine_cycles.csv"));
  std::string line;
  std::getline(lines, line);
  int compared = 0;
  while (std::getline(lines, line)) {
    std::istringstream cells(line);
    std::string machine, address, value, tolerance;
    std::getline(cells, machine, ','), std::getline(cells, address, ','), std::getline(cells, value, ','), std::getline(cells, tolerance, ',');
    INFO(line);
    const Open open(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/tests/briefs/" + machine + ".fer"));
    CHECK(open.si(address) == Approx(std::stod(value)).margin(std::stod(tolerance)).epsilon(0));
    ++compared;
  }
  CHECK(compared >= 16);
}

// Newton's law of cooling by hand: the sample's mean heat through 1.1 m2 at 12 W/m2K from 20 degC.
TEST_CASE("the balance temperature is that of the wall") {
  const Open open(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/samples/bale-squeezer.fer"));
  CHECK(open.si("oil.temperature") == Approx(293.15 + open.si("cycle.heat") / (1.1 * 12)).epsilon(1e-9));
}

TEST_CASE("viscosity follows the balance temperature until both belong together") {
  std::string text = tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/samples/bale-squeezer.fer");
  const std::string fixed = ", temperature 45 degC";
  text.erase(text.find(fixed), fixed.size());
  const Open open(text);
  const double kelvin = open.si("oil.temperature");
  // The same circuit with that temperature stated heats just as much, and has just that viscosity.
  std::string stated = text;
  stated.insert(stated.find("ISO VG 46") + 9, ", temperature " + std::to_string(kelvin - 273.15) + " degC");
  const Open again(stated);
  CHECK(again.si("oil.temperature") == Approx(kelvin).margin(0.01));
  CHECK(again.si("oil.viscosity") == Approx(open.si("oil.viscosity")).epsilon(1e-3));
}

TEST_CASE("without times there are no totals, and the reason is told") {
  std::string text = tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/samples/bale-squeezer.fer");
  text.erase(text.find(", for 2 s"), 9);
  const Open open(text);
  CHECK_FALSE(open.result("cycle.time").result().si);
  CHECK(open.result("cycle.time").result().why_none.find("press") != std::string::npos);
}
