// A scale with round numbers on it.
#pragma once

#include <string>
#include <vector>

namespace ferrule::plots {

struct Axis {
  double low = 0, high = 1;         // in the unit of the label
  std::vector<double> ticks;        // multiples of 1, 2 or 5 times a power of ten, `low` and `high` among them
  // From 0 to 1 along the axis.
  double share(double value) const { return (value - low) / (high - low); }
};

// Holds all values and 0; about `wanted` ticks. Values that are no numbers are left out; without any it is 0 to 1.
Axis axis_for(const std::vector<double>& values, int wanted = 5);
// "0", "2.5", "-40": as many places as the ticks need.
std::string shown_tick(const Axis& axis, double tick);

}  // namespace ferrule::plots
