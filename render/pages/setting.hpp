// Blocks made into pieces of a given width: lines, rows, figures, each with its ink.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/pages/block.hpp"
#include "render/pages/breaking.hpp"

namespace ferrule::pages {

struct Set {
  std::vector<Piece> pieces;
  std::vector<sheet::Inks> inks;  // by piece, top left corner in the origin
};

// `width` in mm.
Set set_blocks(const std::vector<Block>& blocks, double width);

// The words in lines of at most `width` mm; a word wider than that is cut where the line ends. One empty line for no words.
std::vector<std::string> lines_of(std::string_view words, double width, double capital);

// Of columns that would like to be so wide (mm), the widths that they get in a room of `room` mm: all that they like when there
// is room, else the widest give way to one common width, never below `least`.
std::vector<double> shared_widths(const std::vector<double>& liked, const std::vector<double>& least, double room);

// Adds a table; part of set_blocks.
void set_table(const Table& table, double width, Set& set);

// From one line of text to the next, mm: ISO 3098 has 1.5 to 1.9 h (from memory).
inline double pitch_of(double capital) { return 1.75 * capital; }

}  // namespace ferrule::pages
