// Every factor against published ones: NIST SP 811 (tests/reference/units.csv).
#include <catch2/catch.hpp>

#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "compiler/quantities/quantity.hpp"
#include "support/files.hpp"

using namespace ferrule;

namespace {

struct Row {
  std::string unit, si_unit;
  double factor = 0;
};

// The first three columns; none of them is quoted with commas inside.
std::vector<Row> published_units() {
  std::vector<Row> rows;
  std::vector<std::string> lines = tests::lines_of(tests::project_text("tests/reference/units.csv"));
  lines.erase(lines.begin());  // the names of the columns
  for (const std::string& line : lines) {
    std::istringstream cells(line);
    Row row;
    std::string factor;
    std::getline(cells, row.unit, ',');
    std::getline(cells, row.si_unit, ',');
    std::getline(cells, factor, ',');
    row.factor = std::stod(factor);
    rows.push_back(row);
  }
  return rows;
}

// Where the table of the standard names a unit at greater length than people write it.
const std::map<std::string, std::string> spelled = {
    {"US gal", "gal"}, {"US gpm", "gpm"}, {"hp (550 ft.lbf/s)", "hp"}, {"Btu (IT)", "Btu"}, {"inHg (conventional)", "inHg"}};

double factor_of(const std::string& symbol) {
  const auto unit = unit_named(symbol);
  INFO(symbol);
  REQUIRE(unit);
  return unit->factor;
}

double constant(const std::string& name) {
  for (const Row& row : published_units())
    if (row.unit == "constant " + name) return row.factor;
  FAIL("no constant " << name);
  return 0;
}

}  // namespace

TEST_CASE("factors are those of NIST SP 811") {
  const std::map<std::string, Dimension> dimensions = {
      {"m", dimension::length}, {"kg", dimension::mass}, {"N", dimension::force}, {"Pa", dimension::pressure},
      {"m3", dimension::volume}, {"m3/s", dimension::flow}, {"W", dimension::power}, {"J", dimension::torque},
      {"m2/s", dimension::kinematic_viscosity}, {"rad/s", dimension::rotation}};
  int compared = 0;
  for (const Row& row : published_units()) {
    if (row.unit.starts_with("constant") || row.unit == "Imperial gal" || row.unit == "metric hp") continue;
    const auto other = spelled.find(row.unit);
    const auto unit = unit_named(other == spelled.end() ? row.unit : other->second);
    INFO(row.unit);
    REQUIRE(unit);
    CHECK(unit->factor == Approx(row.factor).epsilon(1e-9));  // the table gives 9 digits or more
    if (const auto dimension = dimensions.find(row.si_unit); dimension != dimensions.end()) CHECK(unit->dimension == dimension->second);
    ++compared;
  }
  CHECK(compared >= 18);
}

// The trade's formulas carry these numbers, so a mistake in any unit they join would show.
TEST_CASE("the constants of the handbooks follow from the factors") {
  const auto close = [](double ours, const std::string& name) {
    INFO(name);
    CHECK(ours == Approx(constant(name)).epsilon(1e-9));
  };
  close(factor_of("hp") / (factor_of("psi") * factor_of("gpm")), "p[psi]*Q[gpm]/P[hp]");
  close(factor_of("hp") / (factor_of("lbf in") * factor_of("rpm")), "T[lbf.in]*N[rpm]/P[hp]");
  close(factor_of("hp") / (factor_of("lbf ft") * factor_of("rpm")), "T[lbf.ft]*N[rpm]/P[hp]");
  close(factor_of("kW") / (factor_of("N m") * factor_of("rpm")), "T[N.m]*N[rpm]/P[kW]");
  close(factor_of("kW") / (factor_of("bar") * factor_of("L/min")), "p[bar]*Q[L/min]/P[kW]");
  close(factor_of("gpm") / (factor_of("ft/s") * factor_of("in2")), "v[ft/s]*A[in2]/Q[gpm]");
  close(factor_of("hp") / factor_of("Btu/h"), "Btu/h per hp");
}

// 231 in3 make a gallon, so 1 in3/rev at 231 rpm is 1 gpm: common practice on every slide rule of the trade.
TEST_CASE("displacement times speed is flow") {
  CHECK(unit_named("in3/rev")->factor * 231 * unit_named("rpm")->factor == Approx(unit_named("gpm")->factor).epsilon(1e-12));
  CHECK(unit_named("cm3/rev")->factor * 1000 * unit_named("rpm")->factor == Approx(unit_named("L/min")->factor).epsilon(1e-12));
  CHECK(dimension::displacement * dimension::rotation == dimension::flow);
  CHECK(dimension::pressure * dimension::displacement == dimension::torque / dimension::angle);
}

// Fixed points: ITS-90 and the definition of the Fahrenheit scale, 32 degF and 212 degF for 0 and 100 degC.
TEST_CASE("temperatures are shifted, not only stretched") {
  const auto kelvin = [](double value, const char* unit) {
    const Unit found = *unit_named(unit);
    return value * found.factor + found.offset;
  };
  CHECK(kelvin(0, "degC") == Approx(273.15));
  CHECK(kelvin(32, "degF") == Approx(273.15));
  CHECK(kelvin(212, "degF") == Approx(373.15));
  CHECK(kelvin(120, "°F") == Approx(kelvin(440.0 / 9, "°C")));
}

TEST_CASE("pasted spellings mean the same unit") {
  const auto [pasted, plain] = GENERATE(table<std::string, std::string>(
      {{"cm³/rev", "cm3/rev"}, {"°C", "degC"}, {"°F", "degF"}, {"µm", "um"}, {"μm", "um"}, {"N·m", "N m"}, {"N⋅m", "N m"},
       {"m²", "m2"}, {"W/m²K", "W/m2K"}, {"kg/m³", "kg/m3"}, {"mm²/s", "mm2/s"}, {"in³/rev", "in3/rev"}, {"N.m", "N m"}}));
  INFO(pasted);
  REQUIRE(unit_named(pasted));
  CHECK(unit_named(pasted)->factor == unit_named(plain)->factor);
  CHECK(unit_named(pasted)->dimension == unit_named(plain)->dimension);
}

TEST_CASE("no unit is listed twice, and each one is found by its own spelling") {
  for (const Unit& unit : units()) {
    INFO(unit.symbol);
    const auto found = unit_named(unit.symbol);
    REQUIRE(found);
    CHECK(found->factor == unit.factor);
    CHECK(found->dimension == unit.dimension);
    CHECK(name_of(unit.dimension).find("quantity in") == std::string::npos);
  }
}

TEST_CASE("a number that touches its unit is recognised") {
  CHECK(with_blank("10bar") == "10 bar");
  CHECK(with_blank("1.5kW") == "1.5 kW");
  CHECK(with_blank("45°C") == "45 °C");
  CHECK(with_blank("1V1") == "");
  CHECK(with_blank("bar") == "");
  CHECK(with_blank("10") == "");
}

TEST_CASE("what is no unit is told so, with the one that was meant when one is near") {
  CHECK_FALSE(unit_named("lpm"));
  CHECK_FALSE(unit_named("BAR"));
  CHECK(nearest_unit("BAR") == "bar");
  CHECK(nearest_unit("Bar") == "bar");
  CHECK(nearest_unit("lpm") == "L/min");
  CHECK(nearest_unit("L/mim") == "L/min");
  CHECK(nearest_unit("cc/rev") == "cm3/rev");
  CHECK(nearest_unit("PSI") == "psi");
  CHECK(nearest_unit("elephant") == "");
}
