// What learners often do to a formula, and what number comes of it.
#pragma once

#include <string>
#include <vector>

#include "compiler/figures/worked.hpp"

namespace ferrule::worksheet {

struct Mistake {
  std::string_view phrase;     // key of the phrase that names the cause: "wrong.ring-area"
  working::Value answer;       // the result that it leads to
};

// The working with one line written wrongly, for every mistake that a line of it invites; only where the answer then differs
// from the right one by more than `tolerance` (a share).
std::vector<Mistake> mistakes_in(const working::Worked& worked, double tolerance);

}  // namespace ferrule::worksheet
