// The circuits of five hand-laid sheets, as problems, with the hand's counted crossings and bends as ceilings.
#pragma once

#include <vector>

#include "layout/kit.hpp"

namespace gold {

struct Sheet {
  const char* name;
  ferrule::layout::Problem problem;
  int crossings, bends;        // counted on the hand-laid sheet
  double area_ratio;
};

std::vector<Sheet> sheets();

}  // namespace gold
