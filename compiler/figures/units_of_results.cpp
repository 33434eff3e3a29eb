#include "compiler/figures/units_of_results.hpp"

namespace ferrule::working {
namespace {

namespace d = dimension;

struct Usual {
  Dimension dimension;
  std::string_view unit;
};
constexpr Usual table[] = {
    {d::pressure, "bar"},  {d::flow, "L/min"},      {d::speed, "m/s"},  {d::rotation, "r/min"},   {d::force, "N"},
    {d::torque, "N m"},    {d::power, "W"},         {d::time, "s"},     {d::temperature, "degC"}, {d::kinematic_viscosity, "mm2/s"},
    {d::length, "mm"},     {d::area, "cm2"},        {d::volume, "L"},   {d::angle, "deg"},        {d::displacement, "cm3/rev"},
    {d::density, "kg/m3"}, {d::duty_per_kelvin, "W/K"},
};

}  // namespace

std::pair<double, std::string> in_usual_unit(double si, Dimension dimension) {
  if (dimension == d::none) return {si, "1"};
  for (const Usual& row : table)
    if (row.dimension == dimension)
      if (const auto unit = unit_named(row.unit)) return {in_unit({si, dimension}, *unit), std::string(row.unit)};
  return {si, "SI"};
}

}  // namespace ferrule::working
