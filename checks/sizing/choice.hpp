// From a number that is needed to what is chosen and pasted.
#pragma once

#include <string>
#include <vector>

#include "checks/sizing/series.hpp"
#include "checks/sizing/sizing.hpp"

namespace ferrule::sizing {

// Chosen facts for a part; edits only where they differ from the present ones.
void choose(const Basis& basis, const Part& part, const std::vector<Written>& now, const std::vector<Written>& chosen, Proposal& proposal);

// A part that is stated by one number: the smallest row of the series that is at least `needed` (SI).
Proposal chosen_from(const Basis& basis, const Part& part, const Working& working, double needed, const Series& sizes);

// A part for which there is nothing to propose.
Proposal nothing_for(const Working& working, std::string why);

// "balance of the circuit, in squeeze"
std::string found_in(const Basis& basis, std::size_t state);

}  // namespace ferrule::sizing
