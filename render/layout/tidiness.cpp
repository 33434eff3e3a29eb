#include "render/layout/tidiness.hpp"

#include <algorithm>

namespace ferrule::layout {

namespace {

struct Straight {
  int net, at, from, to;
};

void add_path(const Path& path, int net, std::vector<Straight>& level, std::vector<Straight>& upright) {
  for (std::size_t i = 1; i < path.points.size(); ++i) {
    const Point a = path.points[i - 1], b = path.points[i];
    if (a.y == b.y) level.push_back({net, a.y, std::min(a.x, b.x), std::max(a.x, b.x)});
    else upright.push_back({net, a.x, std::min(a.y, b.y), std::max(a.y, b.y)});
  }
}

bool cross(const Straight& level, const Straight& upright) {
  return level.net != upright.net && level.from < upright.at && upright.at < level.to && upright.from < level.at && level.at < upright.to;
}

bool turns(Point a, Point b, Point c) { return (a.x == b.x) != (b.x == c.x); }

}  // namespace

int crossings_of(const Layout& layout) {
  std::vector<Straight> level, upright;
  for (std::size_t n = 0; n < layout.nets.size(); ++n)
    for (const Path& path : layout.nets[n].paths) add_path(path, static_cast<int>(n), level, upright);
  int count = 0;
  for (const Straight& line : level)
    count += static_cast<int>(std::count_if(upright.begin(), upright.end(), [&](const Straight& other) { return cross(line, other); }));
  return count;
}

int bends_of(const Layout& layout) {
  int count = 0;
  for (const Routed& net : layout.nets)
    for (const Path& path : net.paths)
      for (std::size_t i = 2; i < path.points.size(); ++i) count += turns(path.points[i - 2], path.points[i - 1], path.points[i]);
  return count;
}

}  // namespace ferrule::layout
