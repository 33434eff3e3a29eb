// Every factor against published ones: NIST SP 811 (tests/reference/units.csv).
#include <catch2/catch.hpp>

#include <map>
#include <numbers>
#include <set>
#include <string>
#include <vector>

#include "compiler/quantities/quantity.hpp"
#include "support/table.hpp"

using namespace ferrule;

namespace {

struct Row {
  std::string unit, si_unit;
  double factor = 0;
};

std::vector<Row> published_units() {
  std::vector<Row> rows;
  for (const tests::Row& row : tests::table("units")) rows.push_back({row.at("unit"), row.at("si_unit"), tests::number(row, "factor_to_si")});
  return rows;
}

// Units that the language leaves out, with the reason in tests/reference/not_computed.csv.
std::set<std::string> left_out() {
  std::set<std::string> units;
  for (const tests::Row& row : tests::table("not_computed"))
    if (row.at("table") == "units") units.insert(row.at("row"));
  return units;
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

}  // namespace

TEST_CASE("factors are those of NIST SP 811") {
  const std::map<std::string, Dimension> dimensions = {
      {"m", dimension::length}, {"kg", dimension::mass}, {"N", dimension::force}, {"Pa", dimension::pressure},
      {"m3", dimension::volume}, {"m3/s", dimension::flow}, {"W", dimension::power}, {"J", dimension::torque},
      {"m2/s", dimension::kinematic_viscosity}, {"rad/s", dimension::rotation}};
  int compared = 0;
  for (const Row& row : published_units()) {
    if (row.unit.starts_with("constant") || left_out().contains(row.unit)) continue;
    const auto other = spelled.find(row.unit);
    const auto unit = unit_named(other == spelled.end() ? row.unit : other->second);
    INFO(row.unit);
    REQUIRE(unit);
    CHECK(unit->factor == Approx(row.factor).epsilon(1e-9));  // the table gives 9 digits or more
    if (const auto dimension = dimensions.find(row.si_unit); dimension != dimensions.end()) CHECK(unit->dimension == dimension->second);
    ++compared;
  }
  CHECK(compared == 18);
}

// The trade's formulas carry these numbers, so a mistake in any unit they join would show.
TEST_CASE("the constants of the handbooks follow from the factors") {
  const auto f = factor_of;
  const std::map<std::string, double> ours = {
      {"p[psi]*Q[gpm]/P[hp]", f("hp") / (f("psi") * f("gpm"))},
      {"T[lbf.in]*N[rpm]/P[hp]", f("hp") / (f("lbf in") * f("rpm"))},
      {"T[lbf.ft]*N[rpm]/P[hp]", f("hp") / (f("lbf ft") * f("rpm"))},
      {"T[N.m]*N[rpm]/P[kW]", f("kW") / (f("N m") * f("rpm"))},
      {"p[bar]*Q[L/min]/P[kW]", f("kW") / (f("bar") * f("L/min"))},
      {"gpm per ft3/s", f("ft3") / f("gpm")},
      {"v[ft/s]*A[in2]/Q[gpm]", f("gpm") / (f("ft/s") * f("in2"))},
      {"v[m/s]*d[mm]^2/Q[L/min]", 4 / std::numbers::pi * f("L/min") / (f("mm") * f("mm"))},
      {"Re*nu[cSt]/(v[ft/s]*D[in])", f("ft/s") * f("in") / f("cSt")},
      {"Btu/h per hp", f("hp") / f("Btu/h")},
      {"Btu/min per hp", f("hp") * 60 / f("Btu")}};
  std::size_t compared = 0;
  for (const Row& row : published_units()) {
    if (!row.unit.starts_with("constant ")) continue;
    INFO(row.unit);
    CHECK(ours.at(row.unit.substr(9)) == Approx(row.factor).epsilon(1e-9));
    ++compared;
  }
  CHECK(compared == ours.size());
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
