// What a circuit falls into by nature: the supply, each branch; and what is too large for a sheet falls apart further.
#pragma once

#include <vector>

#include "render/layout/layout.hpp"

namespace ferrule::set {

struct Unit {
  std::vector<int> items;    // of the problem, in the order of the text
  int branch = 0;            // 0 is the supply
};

// The supply and then the branches from left to right. None is empty.
std::vector<Unit> units_of(const layout::Problem& problem);

// The smaller units of one, in the order of the text: assemblies and what hangs on them first, then, without its widest nets,
// whatever is still joined. Shafts, rods, what stands in or on a reservoir and suction lines are never cut. The unit alone when
// it can't be parted.
std::vector<Unit> parted(const layout::Problem& problem, const Unit& unit);

// Nets, but for those of the supply, and assemblies that stand on both sides of a cut before unit `at`: how much it hurts.
int cost_of_cut(const layout::Problem& problem, const std::vector<Unit>& units, std::size_t at);

}  // namespace ferrule::set
