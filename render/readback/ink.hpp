// The ink of one sheet as the eye takes it: straight pieces as long as they can be, whoever drew them in how many strokes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/readback/geometry.hpp"

namespace ferrule::readback {

struct Piece {
  bool level = true;
  long at = 0;                       // y of a level piece, x of an upright one
  long from = 0, to = 0;
  std::string net;                   // that first drew it, for messages
  std::optional<Point> meets;        // where the ink of another net continues it
  bool touches(Point p) const { return (level ? p.y : p.x) == at && from <= along(p) && along(p) <= to; }
  bool before(Point p) const { return from < along(p); }   // it runs on from p to smaller coordinates
  bool beyond(Point p) const { return along(p) < to; }
  Point start() const { return level ? Point{from, at} : Point{at, from}; }
  Point stop() const { return level ? Point{to, at} : Point{at, to}; }

 private:
  long along(Point p) const { return level ? p.x : p.y; }
};

// A place on paper.
struct Spot {
  std::size_t sheet = 0;             // index into Geometry::sheets
  Point at;
};

// What is wrong, and where; nowhere when it is what is missing.
struct Fault {
  std::optional<Spot> spot;
  std::string what;                  // "a line ends at nothing"
};

struct Ink {
  std::vector<Piece> pieces;         // no two of them touch along their own direction
  std::vector<Fault> faults;         // pieces that are neither level nor upright
  // The piece through a point, level or upright; -1 when there is none.
  int through(Point p, bool level) const;
};

// The oil lines of a sheet, or its shafts.
Ink ink_of(const Sheet& sheet, std::size_t index, bool shafts);

}  // namespace ferrule::readback
