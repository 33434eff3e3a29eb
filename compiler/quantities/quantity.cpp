#include "compiler/quantities/quantity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace ferrule {
namespace {

namespace d = dimension;

// What the trade calls a dimension, the unit it shows it in, and an example for messages.
struct Usual {
  std::string_view word;
  Dimension dimension;
  std::string_view unit, example;
  // Shown in `larger` from `from` (SI) on; empty when one unit serves all sizes.
  std::string_view larger = {};
  double from = 0;
  double nothing = 0;  // what is smaller (SI) is a remainder of computing and shown as 0
};

constexpr auto usual = std::to_array<Usual>({
    {"ratio", d::none, "", "93 %"},
    {"length", d::length, "mm", "63 mm", "m", 10},
    {"area", d::area, "cm2", "31.2 cm2", "m2", 0.1},
    {"volume", d::volume, "L", "63 L"},
    {"mass", d::mass, "kg", "120 kg"},
    {"time", d::time, "s", "5 s", "min", 600},
    {"temperature", d::temperature, "degC", "45 degC"},
    {"angle", d::angle, "deg", "90 deg", "turns", 6.3},
    {"speed", d::speed, "m/s", "0.1 m/s", {}, 0, 1e-8},
    {"rotation", d::rotation, "r/min", "1450 r/min", {}, 0, 1e-6},
    {"displacement", d::displacement, "cm3/rev", "16 cm3/rev"},
    {"flow", d::flow, "L/min", "24 L/min", {}, 0, 1e-11},
    {"pressure", d::pressure, "bar", "160 bar", {}, 0, 5},
    {"force", d::force, "N", "25 kN", "kN", 1000, 0.01},
    {"torque", d::torque, "N m", "350 N m", {}, 0, 0.001},
    {"power", d::power, "W", "5.5 kW", "kW", 100, 0.001},
    {"density", d::density, "kg/m3", "865 kg/m3"},
    {"viscosity", d::kinematic_viscosity, "mm2/s", "46 mm2/s"},
    {"heat-transfer", d::heat_transfer, "W/m2K", "12 W/m2K"},
    {"duty-per-kelvin", d::duty_per_kelvin, "W/K", "200 W/K"},
    {"stiffness", d::stiffness, "N/mm", "20 N/mm"},
    {"frequency", {0, 0, -1, 0, 0}, "1/s", "4 1/h"},
    {"acceleration", {1, 0, -2, 0, 0}, "m/s2", "9.81 m/s2"},
    {"dynamic-viscosity", {-1, 1, -1, 0, 0}, "mPa s", "40 mPa s"},
    {"specific-heat", {2, 0, -2, -1, 0}, "kJ/kgK", "1.9 kJ/kgK"},
});

// More words for plain numbers, so that a definition says which kind it means.
constexpr std::string_view plain_numbers[] = {"share", "number", "coefficient", "count"};

const Usual* usual_of(Dimension dimension) {
  for (const Usual& row : usual)
    if (row.dimension == dimension) return &row;
  return nullptr;
}

std::string base_units(Dimension dimension) {
  std::string text;
  const auto factor = [&](std::string_view symbol, int exponent) {
    if (exponent == 0) return;
    if (!text.empty()) text += ' ';
    text += symbol;
    if (exponent != 1) text += fmt::format("{}", exponent);
  };
  factor("kg", dimension.mass);
  factor("m", dimension.length);
  factor("s", dimension.time);
  factor("K", dimension.temperature);
  factor("rad", dimension.angle);
  return text;
}

// Four significant digits below 10 000, none of them idle zeros; fmt's 'g' never asks the locale.
std::string rounded(double value) {
  if (value == 0) return "0";
  if (std::fabs(value) >= 9999.5 && std::fabs(value) < 1e9) return fmt::format("{:.0f}", value);
  return fmt::format("{:.4g}", value);
}

}  // namespace

Dimension operator*(Dimension a, Dimension b) {
  const auto sum = [](int x, int y) { return static_cast<std::int8_t>(x + y); };
  return {sum(a.length, b.length), sum(a.mass, b.mass), sum(a.time, b.time), sum(a.temperature, b.temperature), sum(a.angle, b.angle)};
}

Dimension operator/(Dimension a, Dimension b) {
  const auto less = [](int x, int y) { return static_cast<std::int8_t>(x - y); };
  return {less(a.length, b.length), less(a.mass, b.mass), less(a.time, b.time), less(a.temperature, b.temperature), less(a.angle, b.angle)};
}

std::string name_of(Dimension dimension) {
  const Usual* found = usual_of(dimension);
  return found ? std::string(found->word) : "a quantity in " + base_units(dimension);
}

std::optional<Dimension> dimension_named(std::string_view word) {
  for (const Usual& row : usual)
    if (row.word == word) return row.dimension;
  if (std::find(std::begin(plain_numbers), std::end(plain_numbers), word) != std::end(plain_numbers)) return d::none;
  return std::nullopt;
}

std::string example_of(Dimension dimension) {
  const Usual* found = usual_of(dimension);
  return found ? std::string(found->example) : "a value in " + base_units(dimension);
}

std::optional<Bounds> bounds_of(Dimension dimension) {
  struct Row {
    Dimension dimension;
    Bounds bounds;
  };
  constexpr Row table[] = {
      {d::pressure, {-1.1e5, 1e9}},  // a little below vacuum, 10 000 bar
      {d::flow, {-1e3, 1e3}},        {d::length, {-1e5, 1e5}},       {d::area, {0, 1e6}},          {d::volume, {0, 1e5}},
      {d::mass, {0, 1e9}},           {d::force, {-1e10, 1e10}},      {d::torque, {-1e12, 1e12}},   {d::power, {0, 1e10}},
      {d::time, {0, 3.2e9}},         {d::temperature, {0, 3000}},    {d::speed, {-1e4, 1e4}},      {d::rotation, {-1e5, 1e5}},
      {d::displacement, {0, 10}},    {d::density, {1, 3e4}},         {d::kinematic_viscosity, {1e-8, 1}},
  };
  for (const Row& row : table)
    if (row.dimension == dimension) return row.bounds;
  return std::nullopt;
}

std::string shown(Quantity quantity) {
  const Usual* found = usual_of(quantity.dimension);
  if (!found) return rounded(quantity.si) + " " + base_units(quantity.dimension);
  if (found->unit.empty()) return rounded(quantity.si);
  if (std::fabs(quantity.si) < found->nothing) quantity.si = 0;
  const bool large = !found->larger.empty() && std::fabs(quantity.si) >= found->from;
  const std::string_view symbol = large ? found->larger : found->unit;
  return rounded(in_unit(quantity, *unit_named(symbol))) + " " + std::string(symbol);
}

double in_unit(Quantity quantity, const Unit& unit) { return (quantity.si - unit.offset) / unit.factor; }

}  // namespace ferrule
