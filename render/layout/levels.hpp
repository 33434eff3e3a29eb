// How high everything stands by what it is joined to: 0 the reservoir, 40 the valves a branch hangs on, 80 the actuators.
// Says which way up a symbol turns and what stands over its valve; rows are chosen later. Internal to render/layout.
#pragma once

#include <vector>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

using NetTaps = std::vector<std::vector<int>>;   // taps by net, without those that hang

struct Levels {
  std::vector<double> of;                        // by node

  // The level of a net's other end as a node sees it: what stands in another block is beyond a rail.
  double seen(const Plan& plan, int from, int other) const;
};

Levels levels_of(const Plan& plan, const NetTaps& by_net);

// By node: is it joined to an actuator of its branch without passing the valves the branch hangs on, nor a rail?
std::vector<char> over_valves(const Plan& plan, const NetTaps& by_net);

bool goes_on(const Item& item);      // the mark of a line that goes on on another sheet: it stands where pump or valve would
bool directional(const Item& item);
bool has_hint(const Item& item, const char* word);

}  // namespace ferrule::layout
