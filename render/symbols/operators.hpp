// What shifts a valve row, sorted to its two ends: chains of stroke parts, each attached to the outer end of the one before.
#pragma once

#include "compiler/library/library.hpp"

namespace ferrule::symbols {

struct Link {
  const StrokePart* part = nullptr;
  bool stage = false;       // a pilot stage: external supply and drain leave it
};

struct Chain {
  std::vector<Link> links;  // from the box outward
  std::string tag;          // of a solenoid
  std::string pilot;        // port of an external pilot
};

// The slots of one end, top to bottom: springs above, then what pushes. What brings box k stands on the side of box k; the
// springs of a middle box stand at both ends; a lever that works both ways is drawn once, on the left.
std::vector<Chain> chains_of(Library& library, const std::vector<PositionRow>& positions, int rest, bool left);

// Whether the row can stand anywhere between its boxes: a metered path, or an operator that acts continuously.
bool acts_continuously(const std::vector<PositionRow>& positions);

}  // namespace ferrule::symbols
