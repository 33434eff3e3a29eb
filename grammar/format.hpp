// The canonical layout of a text: same tokens, same comments, same order.
#pragma once

#include <optional>
#include <string>

#include "grammar/tree.hpp"

namespace ferrule {

// The formatted text of a parsed file. Broken items pass through untouched. Idempotent.
// Empty when the result would not hold the same tokens and comments (our bug; the file must then be left alone).
std::optional<std::string> formatted(const Source& source, const Tree& tree);

}  // namespace ferrule
