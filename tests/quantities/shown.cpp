// Quantities as people read them.
#include <catch2/catch.hpp>

#include <clocale>
#include <locale>

#include "compiler/quantities/quantity.hpp"

using namespace ferrule;

namespace {

std::string shown_from(double value, const char* symbol) {
  const Unit unit = *unit_named(symbol);
  return shown({value * unit.factor + unit.offset, unit.dimension});
}

}  // namespace

TEST_CASE("a quantity is shown in the unit of the trade, with as many digits as it deserves") {
  struct Case { double value; const char* unit; const char* text; };
  const auto [value, unit, text] = GENERATE(values<Case>({
      {160, "bar", "160 bar"}, {16, "MPa", "160 bar"}, {2300, "psi", "158.6 bar"}, {-0.17, "bar", "-0.17 bar"},
      {21.3357, "L/min", "21.34 L/min"}, {10, "gpm", "37.85 L/min"}, {2.5, "in", "63.5 mm"}, {0.0015, "mm", "0.0015 mm"},
      {25, "kN", "25 kN"}, {450, "N", "450 N"}, {0.6, "kN", "600 N"}, {16, "cm3/rev", "16 cm3/rev"}, {1450, "rpm", "1450 r/min"},
      {45, "degC", "45 degC"}, {120, "degF", "48.89 degC"}, {46, "cSt", "46 mm2/s"}, {350, "N m", "350 N m"},
      {63, "L", "63 L"}, {31.17, "cm2", "31.17 cm2"}, {10, "hp", "7.457 kW"}, {5, "s", "5 s"}, {120, "kg", "120 kg"},
      {865, "kg/m3", "865 kg/m3"}, {12, "W/m2K", "12 W/m2K"}, {0.12, "m/s", "0.12 m/s"}, {9999.7, "bar", "10000 bar"},
      {65, "W", "65 W"}, {590, "W", "0.59 kW"}, {-3.3e-10, "kW", "0 W"}, {2.5e-11, "bar", "0 bar"}, {0.45, "mbar", "0.00045 bar"},
  }));
  CHECK(shown_from(value, unit) == text);
}

TEST_CASE("a dimension without a word of its own is shown in base units") {
  CHECK(shown({2, dimension::flow * dimension::mass}).find("kg") != std::string::npos);
}

TEST_CASE("every dimension that a definition can name has a word and an example") {
  for (const char* word : {"pressure", "flow", "length", "area", "volume", "mass", "time", "temperature", "angle", "speed", "rotation",
                           "displacement", "force", "torque", "power", "density", "viscosity", "heat-transfer", "duty-per-kelvin",
                           "stiffness", "frequency", "ratio", "share", "number", "coefficient"}) {
    INFO(word);
    REQUIRE(dimension_named(word));
    CHECK_FALSE(example_of(*dimension_named(word)).empty());
  }
  CHECK(name_of(dimension::pressure) == "pressure");
  CHECK_FALSE(dimension_named("pressur"));
}

namespace {
struct DecimalComma : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};
}  // namespace

TEST_CASE("the point stays a point whatever the locale") {
  const std::locale before = std::locale::global(std::locale(std::locale(), new DecimalComma));
  const std::string text = shown_from(1234.5, "bar");
  std::locale::global(before);
  CHECK(text == "1234 bar");
  CHECK(shown_from(12.5, "bar") == "12.5 bar");
}
