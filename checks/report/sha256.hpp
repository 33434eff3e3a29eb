// SHA-256 as in FIPS 180-4; names findings, guards nothing.
#pragma once

#include <string>
#include <string_view>

namespace ferrule {

// 64 hexadecimal digits.
std::string sha256(std::string_view bytes);

}  // namespace ferrule
