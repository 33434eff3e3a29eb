// The equations of one state as one plain system, for a solver that knows nothing of circuits.
#pragma once

#include <vector>

#include "compiler/hydraulics/network.hpp"

namespace outside {

struct Found {
  bool converged = false;
  std::size_t unknowns = 0;
  std::vector<double> pressure;  // by point, bar
  std::vector<double> local;     // by unknown of the branches, L/min
};

// All pressures, flows and void flows at once with a dense Jacobian, by the GNU Scientific Library: its damped Newton, and
// where that fails Powell's hybrid method, scaled and not. The either-or pairs are sharpened in the product's stages.
Found solved_by_gsl(const ferrule::hydraulics::Network& network);

}  // namespace outside
