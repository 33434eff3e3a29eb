// A unified difference of two texts.
#pragma once

#include <string>

namespace ferrule {

// Empty when they are equal. Lines are safe to print.
std::string difference(const std::string& path, const std::string& before, const std::string& after);

}  // namespace ferrule
