// The same linear step with pivoting, for the rare matrix that plain elimination spoils (strong pilots, wide spread).
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/hydraulics/elimination.hpp"
#include "compiler/hydraulics/network.hpp"

namespace ferrule::hydraulics {

// Solves the assembled matrix in place of the right side; false when it is singular. The only file that sees Eigen.
bool solve_pivoted(Elimination& matrix, const Network& network, const std::vector<std::uint32_t>& row_of,
                   std::vector<double>& right_side);

}  // namespace ferrule::hydraulics
