// The results that can be asked for: last word of an address, as in `1A1.speed`, and what a value of it looks like.
#pragma once

#include <span>
#include <string_view>

#include "compiler/quantities/quantity.hpp"

namespace ferrule {

struct ResultWord {
  std::string_view word;
  Dimension dimension;
  Dimension other;        // speed of a motor, torque ...; same as `dimension` where there is none
  std::string_view text;  // for the reference
};
std::span<const ResultWord> result_words();
const ResultWord* result_named(std::string_view word);

}  // namespace ferrule
