// An independent judge of layouts: naive, quadratic, shares nothing with the code it judges but the data.
#pragma once

#include <string>
#include <vector>

#include "render/layout/layout.hpp"

namespace judge {

struct Figures {
  int crossings = 0, bends = 0, tees = 0, nets = 0;
  double area_ratio = 0;      // drawing area over symbol area, a reservoir counts its trough
  int leaders = 0;
};

std::vector<std::string> faults(const ferrule::layout::Problem& problem, const ferrule::layout::Layout& layout);
Figures figures(const ferrule::layout::Problem& problem, const ferrule::layout::Layout& layout);

}  // namespace judge
