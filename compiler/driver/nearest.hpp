// Did-you-mean for commands, options and rules.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ferrule {

// The name within max(1, length / 3) edits, the first of equals; empty when none is near, for no suggestion beats a silly one.
std::string nearest(std::string_view word, const std::vector<std::string>& names);
// " (did you mean NAME?)" or nothing.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& names);

}  // namespace ferrule
