// Where a page ends. Knows nothing of paper, ink or words: pieces have heights, and some belong together.
#pragma once

#include <cstddef>
#include <vector>

namespace ferrule::pages {

// What is never cut: a line of a paragraph, a row of a table, a figure, a heading.
struct Piece {
  double height = 0;        // mm
  double before = 0;        // mm of air above it; none at the head of a page
  bool with_next = false;   // no page ends behind it: a heading is not left alone
  int head = -1;            // the piece repeated above it where a page begins with it: the head of its table
};

struct Standing {
  std::size_t piece = 0;
  double top = 0;           // mm below the top of the room
};
using Standings = std::vector<Standing>;

// Whether piece `index` of `count` lines of one paragraph, or rows of one table, stays with the next: no line is left alone at
// the foot of a page or at the head of the next one.
bool stays_with_next(std::size_t index, std::size_t count);

// The pieces page by page, in order; repeated heads appear again. A page is as full as the rules allow; where no rule can be
// kept (more belongs together than a page holds) the page is filled. A piece higher than the room has a page to itself.
// `room` in mm.
std::vector<Standings> broken(const std::vector<Piece>& pieces, double room);

}  // namespace ferrule::pages
