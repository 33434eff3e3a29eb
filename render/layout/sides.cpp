#include "render/layout/sides.hpp"

namespace ferrule::layout {

// splitmix64, public domain constants.
Key key_of(const End& end) {
  Key z = (Key(std::uint32_t(end.item)) << 32 | std::uint32_t(end.pin)) + 0x9e3779b97f4a7c15ULL;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

Sides sides_of(const std::vector<Path>& paths, const KeysAt& ends) {
  Sides sides{std::vector<Key>(paths.size(), 0), 0};
  if (paths.empty()) return sides;
  std::map<Point, std::vector<int>, PointOrder> at;     // point -> paths that end there
  for (std::size_t p = 0; p < paths.size(); ++p) {
    at[paths[p].points.front()].push_back(int(p));
    at[paths[p].points.back()].push_back(int(p));
  }
  // Depth first without recursion: on the way back every path hands its sum to the one before it.
  struct Visit { Point point; int path; };
  std::vector<Visit> order{{paths[0].points.front(), -1}};
  std::vector<int> parent;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const Visit visit = order[i];
    for (const int p : at[visit.point]) {
      if (p == visit.path) continue;
      const Point other = paths[p].points.front() == visit.point ? paths[p].points.back() : paths[p].points.front();
      order.push_back({other, p});
      parent.resize(order.size(), -1);
      parent.back() = int(i);
      if (order.size() > 2 * paths.size() + 2) return sides;      // not a tree: nothing rather than a hang
    }
  }
  parent.resize(order.size(), -1);
  const auto sum_of = [&](int path) -> Key& { return path < 0 ? sides.total : sides.beyond[path]; };
  for (std::size_t i = order.size(); i-- > 0;) {
    const auto end = ends.find(order[i].point);
    if (end != ends.end()) sum_of(order[i].path) += end->second;
    if (parent[i] >= 0) sum_of(order[parent[i]].path) += sum_of(order[i].path);
  }
  return sides;
}

}  // namespace ferrule::layout
