// The same linear step with pivoting, for the rare matrix that plain elimination spoils (strong pilots, wide spread).
#pragma once

#include <vector>

#include "compiler/hydraulics/elimination.hpp"

namespace ferrule::hydraulics {

// Solves the assembled matrix in place of the right side; false when it is singular.
bool solve_pivoted(const Elimination& matrix, std::vector<double>& right_side);

}  // namespace ferrule::hydraulics
