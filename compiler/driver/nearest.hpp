// Did-you-mean for commands, options and rules.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ferrule {

// " (did you mean NAME?)" or nothing, for no suggestion beats a silly one.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& names);

}  // namespace ferrule
