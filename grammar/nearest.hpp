// Did-you-mean: the words that a misspelt one may have meant.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ferrule {

// Letters changed, dropped, added or swapped between neighbours; upper and lower case and `-`/`_` count as equal.
std::size_t distance_between(std::string_view a, std::string_view b);

// At most three of `known` within max(1, length/3) letters of `word`, nearest first, ties in the order of `known`.
// No suggestion beats a silly one: may be empty.
std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& known);

// "`a`, `b` or `c`"; with `last` as joining word.
std::string listed(const std::vector<std::string>& words, std::string_view last = "or");

// "`seting` ... write `setting`": the fix for a misspelt word, or `otherwise` when nothing is near.
std::string write_instead(std::string_view word, const std::vector<std::string>& known, std::string otherwise);

}  // namespace ferrule
