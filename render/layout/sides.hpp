// Which ends of a drawn net lie on the far side of each of its pieces.
#pragma once

#include <cstdint>
#include <map>
#include <tuple>
#include <vector>

#include "render/layout/layout.hpp"

namespace ferrule::layout {

struct PointOrder {
  bool operator()(const Point& a, const Point& b) const { return std::tie(a.x, a.y) < std::tie(b.x, b.y); }
};

// A sum of keys tells a set of ends apart from another.
using Key = std::uint64_t;
Key key_of(const End& end);

// The keys of the ends that stand at a point.
using KeysAt = std::map<Point, Key, PointOrder>;

struct Sides {
  std::vector<Key> beyond;   // by path: the sum of the keys beyond it, seen from where the net begins
  Key total = 0;             // of all ends
};
// The paths form a tree; where they do not, nothing is said. In proportion to the number of paths.
Sides sides_of(const std::vector<Path>& paths, const KeysAt& ends);
// Does the path part just the ends of this sum from the others?
inline bool parts(const Sides& sides, std::size_t path, Key near) { return sides.beyond[path] == near || sides.total - sides.beyond[path] == near; }

}  // namespace ferrule::layout
