// Formulas as people write them on a board: `v = q / A`, `F = eta x (p_A x A_A - p_B x A_B)`. The printed formula is the
// one that is computed, so a working can never say one thing and the number another.
//
// A formula has numbers, names, `pi`, + - x / ^, brackets, sqrt( ), abs( ), min( , ), max( , ). Blanks stand round operators.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace ferrule::working {

// The value of a name; NaN when there is none.
using ValueOf = std::function<double(std::string_view name)>;
// NaN when a name has no value or the formula cannot be read.
double value_of(std::string_view formula, const ValueOf& value_of_name);

// Names in a formula, each once, in the order of their first place.
std::vector<std::string> names_in(std::string_view formula);

// The formula with something else in place of each name: the numbers put in.
std::string with_names_replaced(std::string_view formula, const std::function<std::string(std::string_view name)>& by);

}  // namespace ferrule::working
