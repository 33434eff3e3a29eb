// The units people write. Factors are exact ratios of NIST SP 811 (2008), appendix B, where no other source stands.
#include <algorithm>
#include <array>
#include <map>
#include <numbers>

#include "grammar/nearest.hpp"
#include "compiler/quantities/quantity.hpp"

namespace ferrule {
namespace {

namespace d = dimension;

constexpr double inch = 0.0254, foot = 12 * inch, pound = 0.45359237, gravity = 9.80665;
constexpr double pound_force = pound * gravity, psi = pound_force / (inch * inch);
constexpr double us_gallon = 231 * inch * inch * inch, minute = 60, turn = 2 * std::numbers::pi;
constexpr double litre = 1e-3, hp = 550 * foot * pound_force, per_turn = 1 / turn;
constexpr double btu = 1055.05585262;  // international table, exact
constexpr Dimension energy = d::torque;
constexpr Dimension area_heat = d::heat_transfer;
constexpr Dimension specific_heat{2, 0, -2, -1, 0}, acceleration{1, 0, -2, 0, 0}, dynamic_viscosity{-1, 1, -1, 0, 0};
constexpr Dimension frequency{0, 0, -1, 0, 0};

constexpr auto table = std::to_array<Unit>({
    {"%", d::none, 0.01},
    {"mm", d::length, 1e-3}, {"m", d::length, 1}, {"cm", d::length, 1e-2}, {"um", d::length, 1e-6}, {"km", d::length, 1e3},
    {"in", d::length, inch}, {"ft", d::length, foot}, {"yd", d::length, 3 * foot},
    {"mm2", d::area, 1e-6}, {"cm2", d::area, 1e-4}, {"m2", d::area, 1}, {"in2", d::area, inch * inch}, {"ft2", d::area, foot * foot},
    {"L", d::volume, litre}, {"l", d::volume, litre}, {"mL", d::volume, 1e-6}, {"ml", d::volume, 1e-6}, {"m3", d::volume, 1},
    {"dm3", d::volume, litre}, {"cm3", d::volume, 1e-6}, {"mm3", d::volume, 1e-9}, {"in3", d::volume, inch * inch * inch},
    {"ft3", d::volume, foot * foot * foot}, {"gal", d::volume, us_gallon}, {"qt", d::volume, us_gallon / 4},
    {"kg", d::mass, 1}, {"g", d::mass, 1e-3}, {"t", d::mass, 1000}, {"lb", d::mass, pound}, {"lbm", d::mass, pound},
    {"slug", d::mass, pound_force / foot},
    {"s", d::time, 1}, {"ms", d::time, 1e-3}, {"min", d::time, minute}, {"h", d::time, 3600}, {"d", d::time, 86400},
    {"years", d::time, 31557600},  // the Julian year of 365.25 days
    {"degC", d::temperature, 1, 273.15}, {"degF", d::temperature, 5.0 / 9.0, 459.67 * 5.0 / 9.0}, {"K", d::temperature, 1},
    {"deg", d::angle, turn / 360}, {"rad", d::angle, 1}, {"turns", d::angle, turn}, {"turn", d::angle, turn}, {"rev", d::angle, turn},
    {"m/s", d::speed, 1}, {"mm/s", d::speed, 1e-3}, {"m/min", d::speed, 1 / minute}, {"cm/s", d::speed, 1e-2},
    {"km/h", d::speed, 1 / 3.6}, {"ft/s", d::speed, foot}, {"in/s", d::speed, inch}, {"ft/min", d::speed, foot / minute},
    {"in/min", d::speed, inch / minute}, {"m/s2", acceleration, 1},
    {"r/min", d::rotation, turn / minute}, {"rpm", d::rotation, turn / minute}, {"rev/min", d::rotation, turn / minute},
    {"rad/s", d::rotation, 1}, {"r/s", d::rotation, turn}, {"rev/s", d::rotation, turn}, {"deg/s", d::rotation, turn / 360},
    {"Hz", frequency, 1}, {"1/s", frequency, 1}, {"1/h", frequency, 1.0 / 3600}, {"1/min", frequency, 1 / minute},
    {"cm3/rev", d::displacement, 1e-6 * per_turn}, {"cm3/r", d::displacement, 1e-6 * per_turn},
    {"mL/rev", d::displacement, 1e-6 * per_turn}, {"L/rev", d::displacement, litre * per_turn},
    {"in3/rev", d::displacement, inch * inch * inch * per_turn}, {"in3/r", d::displacement, inch * inch * inch * per_turn},
    {"m3/rad", d::displacement, 1}, {"cm3/rad", d::displacement, 1e-6},
    {"L/min", d::flow, litre / minute}, {"l/min", d::flow, litre / minute}, {"L/s", d::flow, litre}, {"L/h", d::flow, litre / 3600},
    {"mL/min", d::flow, 1e-6 / minute}, {"cm3/min", d::flow, 1e-6 / minute}, {"cm3/s", d::flow, 1e-6}, {"m3/h", d::flow, 1.0 / 3600},
    {"m3/s", d::flow, 1}, {"m3/min", d::flow, 1 / minute}, {"gpm", d::flow, us_gallon / minute},
    {"in3/min", d::flow, inch * inch * inch / minute}, {"in3/s", d::flow, inch * inch * inch},
    {"bar", d::pressure, 1e5}, {"mbar", d::pressure, 100}, {"MPa", d::pressure, 1e6}, {"kPa", d::pressure, 1e3},
    {"Pa", d::pressure, 1}, {"GPa", d::pressure, 1e9}, {"psi", d::pressure, psi}, {"ksi", d::pressure, 1000 * psi},
    {"atm", d::pressure, 101325}, {"kgf/cm2", d::pressure, gravity * 1e4}, {"inHg", d::pressure, 3386.389},
    {"N/mm2", d::pressure, 1e6},
    {"N", d::force, 1}, {"kN", d::force, 1e3}, {"MN", d::force, 1e6}, {"lbf", d::force, pound_force}, {"kip", d::force, 1000 * pound_force},
    {"kgf", d::force, gravity}, {"tonf", d::force, 2000 * pound_force},
    {"N m", d::torque, 1}, {"Nm", d::torque, 1}, {"kN m", d::torque, 1e3}, {"daN m", d::torque, 10},
    {"lbf ft", d::torque, pound_force * foot}, {"lbf in", d::torque, pound_force * inch}, {"ft lbf", d::torque, pound_force * foot},
    {"J", energy, 1}, {"kJ", energy, 1e3}, {"MJ", energy, 1e6}, {"kWh", energy, 3.6e6}, {"Wh", energy, 3600}, {"Btu", energy, btu},
    {"W", d::power, 1}, {"kW", d::power, 1e3}, {"MW", d::power, 1e6}, {"hp", d::power, hp}, {"Btu/h", d::power, btu / 3600},
    {"kg/m3", d::density, 1}, {"kg/L", d::density, 1000}, {"g/cm3", d::density, 1000}, {"lb/ft3", d::density, pound / (foot * foot * foot)},
    {"cSt", d::kinematic_viscosity, 1e-6}, {"mm2/s", d::kinematic_viscosity, 1e-6}, {"m2/s", d::kinematic_viscosity, 1},
    {"cP", dynamic_viscosity, 1e-3}, {"mPa s", dynamic_viscosity, 1e-3}, {"Pa s", dynamic_viscosity, 1},
    {"W/m2K", area_heat, 1}, {"W/K", d::duty_per_kelvin, 1}, {"kW/K", d::duty_per_kelvin, 1e3},
    {"N/mm", d::stiffness, 1e3}, {"N/m", d::stiffness, 1}, {"kN/mm", d::stiffness, 1e6}, {"lbf/in", d::stiffness, pound_force / inch},
    {"kJ/kgK", specific_heat, 1e3}, {"J/kgK", specific_heat, 1},
});

// Pasted letters to those of the table: superscripts, the degree, the micro signs, the raised dot.
struct Spelling { std::string_view pasted, plain; };
constexpr Spelling spellings[] = {{"²", "2"}, {"³", "3"}, {"°", "deg"}, {"µ", "u"}, {"μ", "u"}, {"·", " "}, {"⋅", " "}, {".", " "}};

std::string plainly_spelled(std::string_view symbol) {
  std::string plain(symbol);
  for (const Spelling& spelling : spellings)
    for (std::size_t at; (at = plain.find(spelling.pasted)) != std::string::npos;)
      plain.replace(at, spelling.pasted.size(), spelling.plain);
  return plain;
}

const std::map<std::string_view, const Unit*>& index() {
  static const std::map<std::string_view, const Unit*> by_symbol = [] {
    std::map<std::string_view, const Unit*> map;
    for (const Unit& unit : table) map.emplace(unit.symbol, &unit);
    return map;
  }();
  return by_symbol;
}

// Spellings that other trades use and that no distance would find.
struct Meant { std::string_view written, unit; };
constexpr Meant meant[] = {{"lpm", "L/min"}, {"LPM", "L/min"}, {"ltr", "L"}, {"liter", "L"}, {"litre", "L"}, {"cc", "cm3"},
                           {"cc/rev", "cm3/rev"}, {"ccm", "cm3"}, {"C", "degC"}, {"F", "degF"}, {"sec", "s"}, {"hr", "h"},
                           {"PS", "kW"}, {"gallons", "gal"}, {"inch", "in"}, {"inches", "in"}, {"feet", "ft"}, {"percent", "%"}};

}  // namespace

std::span<const Unit> units() { return table; }

std::optional<Unit> unit_named(std::string_view symbol) {
  const auto found = index().find(symbol);
  if (found != index().end()) return *found->second;
  const std::string plain = plainly_spelled(symbol);
  const auto again = index().find(plain);
  return again == index().end() ? std::nullopt : std::optional(*again->second);
}

std::string nearest_unit(std::string_view symbol) {
  for (const Meant& row : meant)
    if (row.written == symbol) return std::string(row.unit);
  if (symbol.size() > 12) return {};
  const std::size_t allowed = std::max<std::size_t>(1, symbol.size() / 3);
  std::string nearest;
  std::size_t least = allowed + 1;
  for (const Unit& unit : table)
    if (const std::size_t distance = distance_between(symbol, unit.symbol); distance < least) {
      least = distance;
      nearest = unit.symbol;
    }
  return nearest;
}

}  // namespace ferrule
