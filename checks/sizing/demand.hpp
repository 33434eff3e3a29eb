// What the text asks of an actuator: loads of its steps, forces, speeds and times that are stated or required.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "checks/sizing/sizing.hpp"

namespace ferrule::sizing {

// The greatest (`at least`) value that `require` asks of "1A1.speed" in a state, SI; none where nothing is required.
std::optional<double> required_at_least(const Basis& basis, const std::string& address, std::size_t state);
// The least (`at most`).
std::optional<double> required_at_most(const Basis& basis, const std::string& address, std::size_t state);

// What one actuator has to bring up in one state.
struct Task {
  std::size_t state = 0;
  bool outward = true;
  double load = 0;           // N or N m; above 0, against the motion
  std::string origin;        // "given for the step"
  double fed = 0, other = 0; // Pa that stand on the side that drives and on the other while it stands still under full pressure
};
// Of all told states in which it has to do something and the pressures have values.
std::vector<Task> tasks_of(const Basis& basis, const working::Subject& actuator);

// How many times faster than now a state has to be for its stated travels and times and what is required; none where nothing
// moves, or what moves has no speed now. `why` says which wish it is.
struct Pace {
  double factor = 1;
  std::string why = "as fast as now";
};
std::optional<Pace> pace_of(const Basis& basis, std::size_t state);

}  // namespace ferrule::sizing
