// Files that are written whole or not at all.
#pragma once

#include <string>
#include <string_view>

#include "compiler/driver/verb.hpp"

namespace ferrule {

// Puts `bytes` there by way of a new file beside the target, synced and renamed; keeps the mode of a file that stands
// there and leaves it alone when its bytes are the same. "-" adds to `standard_output`.
// Returns why it could not be done; empty when it was.
std::string written(const std::string& path, std::string_view bytes, std::string& standard_output);
// The same, and says why it could not be done. An exit code: `done` or `not_written`.
int put_file(const std::string& path, std::string_view bytes, Talk& talk);

}  // namespace ferrule
