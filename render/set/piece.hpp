// The part of a sketch that stands on one sheet of a set, with a mark wherever a net goes on on another.
#pragma once

#include <string>
#include <vector>

#include "render/set/units.hpp"
#include "render/sketch.hpp"

namespace ferrule::set {

// A mark of a piece: for the ends of its net on earlier sheets, or for those on later ones.
struct PieceMark {
  std::string symbol;        // its id on the sheet
  int net = -1;              // of the whole
  bool onward = false;       // the others stand on later sheets
  bool to = false;           // the oil runs there
  Side side = Side::above;   // the way its line leaves
};

struct Piece {
  Sketch sketch;
  std::vector<PieceMark> marks;
};

struct Range {
  std::size_t first = 0, last = 0;   // units [first, last)
};

// A whole that is to be cut, with what every piece needs to know of it.
class Whole {
 public:
  // `mark_width`: modules that the words of a mark take.
  Whole(const Sketch& sketch, double mark_width);
  const Sketch& sketch() const { return sketch_; }

  // Items keep their branches. A line to a reservoir that stands elsewhere ends in the reservoir's sign; a net without one ends
  // in at most two marks. The size of a pipe stands on every sheet on which its piece of line begins or ends.
  Piece piece(const std::vector<Unit>& units, Range range) const;

 private:
  const Sketch& sketch_;
  double mark_width_;
  std::vector<std::vector<int>> nets_of_;   // by item
};

}  // namespace ferrule::set
