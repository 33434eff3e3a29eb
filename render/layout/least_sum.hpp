// Positions on a line with the least weighted sum of distances: the one optimisation that coordinates need.
#pragma once

#include <vector>

namespace ferrule::layout {

struct Gap { int a, b, least; };                // x[b] - x[a] >= least
struct Pull { int a, b, offset, weight; };      // costs weight * |x[a] + offset - x[b]|

// Improves `x`, which must satisfy the gaps, to an optimum on the grid of 1 (of 2 when all numbers are even). The cost is an
// L-natural-convex function, so steepest descent by minimum cuts, with halving steps, ends in the global optimum
// (K. Murota, Discrete Convex Analysis, SIAM 2003, chapter 10). Above `exact` positions it only sweeps medians.
void settle(std::vector<int>& x, const std::vector<Gap>& gaps, const std::vector<Pull>& pulls, std::size_t exact = 400);

}  // namespace ferrule::layout
