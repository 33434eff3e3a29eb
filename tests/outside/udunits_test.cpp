// Every unit people may write, against the Debian library UDUNITS-2 (libudunits2), to 1e-12.
#include <catch2/catch.hpp>
#include <udunits2.h>

#include <map>
#include <memory>
#include <string>

#include "compiler/quantities/quantity.hpp"

using namespace ferrule;

namespace {

struct System {
  ut_system* system = nullptr;
  System() {
    ut_set_error_message_handler(ut_ignore);
    system = ut_read_xml(nullptr);
  }
  ~System() { ut_free_system(system); }
};

// The US gallon is 231 cubic inches by definition (NIST SP 811); the library's own word for it is a rounded figure.
// Where the library spells a unit otherwise, or means another unit by the word: what the trade means, in its words.
const std::map<std::string, std::string> spelled{
    {"%", "0.01"}, {"L", "litre"}, {"l", "litre"}, {"mL", "millilitre"}, {"ml", "millilitre"}, {"gal", "231 in3"},
    {"qt", "57.75 in3"}, {"t", "tonne"}, {"lb", "pound"}, {"lbm", "pound"}, {"slug", "lbf.s2/ft"}, {"years", "365.25 d"},
    {"degC", "celsius"}, {"degF", "fahrenheit"}, {"turns", "2 PI rad"}, {"turn", "2 PI rad"}, {"rev", "2 PI rad"}, {"deg", "arc_degree"},
    {"r/min", "2 PI rad/min"}, {"rpm", "2 PI rad/min"}, {"rev/min", "2 PI rad/min"}, {"r/s", "2 PI rad/s"}, {"rev/s", "2 PI rad/s"},
    {"deg/s", "arc_degree/s"}, {"cm3/rev", "cm3/(2 PI rad)"}, {"cm3/r", "cm3/(2 PI rad)"}, {"mL/rev", "millilitre/(2 PI rad)"},
    {"L/rev", "litre/(2 PI rad)"}, {"in3/rev", "in3/(2 PI rad)"}, {"in3/r", "in3/(2 PI rad)"}, {"L/min", "litre/min"},
    {"l/min", "litre/min"}, {"L/s", "litre/s"}, {"L/h", "litre/h"}, {"mL/min", "millilitre/min"}, {"gpm", "231 in3/min"},
    {"kip", "1000 lbf"}, {"tonf", "2000 lbf"}, {"ksi", "1000 lbf/in2"}, {"psi", "lbf/in2"}, {"inHg", "3386.389 Pa"},
    {"N m", "N.m"}, {"Nm", "N.m"}, {"kN m", "kN.m"}, {"daN m", "daN.m"}, {"lbf ft", "lbf.ft"}, {"lbf in", "lbf.in"}, {"ft lbf", "ft.lbf"},
    {"kWh", "kW.h"}, {"Wh", "W.h"}, {"Btu", "1055.05585262 J"}, {"Btu/h", "1055.05585262 J/h"}, {"hp", "550 ft.lbf/s"},
    {"kg/L", "kg/litre"}, {"lb/ft3", "pound/ft3"}, {"cP", "mPa.s"}, {"mPa s", "mPa.s"}, {"Pa s", "Pa.s"}, {"cSt", "mm2/s"},
    {"W/m2K", "W/(m2.K)"}, {"kJ/kgK", "kJ/(kg.K)"}, {"J/kgK", "J/(kg.K)"}, {"lbf/in", "lbf/in"}};

std::string coherent(Dimension d) {
  std::string text;
  const auto add = [&](const char* unit, int exponent) {
    if (exponent != 0) text += (text.empty() ? "" : ".") + std::string(unit) + std::to_string(exponent);
  };
  add("kg", d.mass), add("m", d.length), add("s", d.time), add("K", d.temperature), add("rad", d.angle);
  return text.empty() ? "1" : text;
}

std::unique_ptr<cv_converter, void (*)(cv_converter*)> converter(const System& in, const std::string& from, const std::string& to) {
  ut_unit* a = ut_parse(in.system, from.c_str(), UT_UTF8);
  ut_unit* b = ut_parse(in.system, to.c_str(), UT_UTF8);
  cv_converter* made = a && b ? ut_get_converter(a, b) : nullptr;
  ut_free(a);
  ut_free(b);
  return {made, cv_free};
}

}  // namespace

TEST_CASE("units are those of UDUNITS-2") {
  const System udunits;
  REQUIRE(udunits.system);
  for (const Unit& unit : units()) {
    const std::string symbol(unit.symbol);
    const auto other = spelled.find(symbol);
    const std::string said = other == spelled.end() ? symbol : other->second;
    INFO(symbol << " as " << said << " in " << coherent(unit.dimension));
    const auto known = converter(udunits, said, coherent(unit.dimension));
    REQUIRE(known);
    for (const double value : {1.0, 47.3, -12.5})
      CHECK(value * unit.factor + unit.offset == Approx(cv_convert_double(known.get(), value)).epsilon(1e-12).margin(0));
  }
}
