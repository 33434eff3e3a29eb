// Several circuits compared: what a lesson on centres, pumps or controls turns on.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "compiler/figures/book.hpp"
#include "compiler/figures/tables.hpp"

namespace ferrule::working {

struct Compared {
  std::string name;
  const Book* book = nullptr;
};

// One table for each state that at least two of the circuits have by the same name, in the order of the first that has it: greatest
// pressure at a pump, power at the shafts (W), work (W), heat (W), and the shaft power as a share of the greatest of them. Of the
// cycle the means, with its time. `wanted`: only the state of that name; "" for all. A circuit without a number shows "-".
std::vector<TableOf> side_by_side(std::span<const Compared> circuits, std::string_view wanted);

}  // namespace ferrule::working
