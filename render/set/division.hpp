// Which units stand together on a sheet.
#pragma once

#include <functional>

#include "render/set/piece.hpp"

namespace ferrule::set {

struct Division {
  std::vector<Unit> units;       // parted where one was too large for a sheet
  std::vector<Range> sheets;     // consecutive and without a gap
};

// Whether the units of a range fit on one sheet. A range inside one that fits is taken to fit.
using Fits = std::function<bool(const std::vector<Unit>& units, Range range)>;

struct Sizes {
  Fits usual;     // on the format of the set
  Fits larger;    // on any that is larger
};

// All on one sheet when they fit. Else the supply has its sheets to itself and the branches fill theirs in their order, so that what
// is appended at the end moves nothing before it. Among the later half of a sheet's possible ends the one that cuts the fewest nets
// and assemblies is taken, then the last.
// A unit too large for a sheet is parted when all its parts fit then; else it has a larger sheet of its own. When none is large
// enough it is parted as far as it can be.
Division divided(const layout::Problem& problem, std::vector<Unit> units, const Sizes& sizes);

}  // namespace ferrule::set
