// A line of the text with letters under the places it explains:
//     12     relief-valve 0V1 { setting 260 bar }
//                               A~~~~~~
#pragma once

#include <string>
#include <vector>

#include "grammar/message.hpp"

namespace ferrule {

struct MarkedLine {
  std::uint32_t line = 0;           // number in its file
  std::string text;                 // safe to print, cut with `..` to the width
  std::vector<std::string> marks;   // rows of letters; more than one only where places overlap
};

// The lines of `file` that hold places, in the order of the text. Letters go by the index in `places`: 0 is A.
std::vector<MarkedLine> marked_lines(const Source& source, std::uint32_t file, const std::vector<Place>& places, std::size_t width);

// A .. Z, then A2 ...
std::string letter_of(std::size_t place);

}  // namespace ferrule
