#include "render/plots/axis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ferrule::plots {
namespace {

double step_for(double span, int wanted) {
  const double raw = span / wanted, power = std::pow(10, std::floor(std::log10(raw)));
  for (const double factor : {1.0, 2.0, 5.0})
    if (factor * power >= raw * (1 - 1e-9)) return factor * power;
  return 10 * power;
}

}  // namespace

Axis axis_for(const std::vector<double>& values, int wanted) {
  double low = 0, high = 0;
  for (const double value : values)
    if (std::isfinite(value)) low = std::min(low, value), high = std::max(high, value);
  if (high - low < 1e-9) high = 1;
  const double step = step_for(high - low, wanted);
  Axis axis;
  const long first = std::lround(std::floor(low / step + 1e-9)), last = std::lround(std::ceil(high / step - 1e-9));
  for (long i = first; i <= last; ++i) axis.ticks.push_back(static_cast<double>(i) * step);
  axis.low = axis.ticks.front(), axis.high = axis.ticks.back();
  return axis;
}

std::string shown_tick(const Axis& axis, double tick) {
  const double step = axis.ticks[1] - axis.ticks[0];
  const int places = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
  return fmt::format("{:.{}f}", std::abs(tick) < step / 1e6 ? 0.0 : tick, places);
}

}  // namespace ferrule::plots
