// Step 12: chain lines around assemblies. An enclosure that could not hold exactly its members is left out and said so: a wrong
// border is worse than none.
#include <algorithm>
#include <cstdlib>
#include <map>
#include <string>

#include "render/layout/occupied.hpp"
#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

constexpr int border = 4;      // 2 M clear inside

struct Encloser {
  const Problem& problem;
  Layout& layout;
  std::vector<std::vector<int>> members;    // by group, those of inner groups too

  bool inside(int group, int item) const {
    for (int g = problem.items[item].group; g >= 0; g = problem.groups[g].parent)
      if (g == group) return true;
    return false;
  }

  Box around(int group, const std::vector<Box>& rooms) const {
    Box box = rooms[members[group][0]];
    for (const int item : members[group]) box = hull(box, rooms[item]);
    int depth = 0;
    for (std::size_t g = 0; g < problem.groups.size(); ++g) depth += problem.groups[g].parent == group;
    const int room = border * (depth ? 2 : 1);
    return {box.left - room, box.top - room, box.right + room, box.bottom + room};
  }

  bool clean(int group, const Box& box, const std::vector<Box>& rooms) const {
    for (std::size_t i = 0; i < problem.items.size(); ++i)
      if (!inside(group, int(i)) && meets(box, rooms[i], 1)) return false;
    for (const Routed& net : layout.nets)
      for (const Path& path : net.paths)
        for (std::size_t p = 1; p < path.points.size(); ++p)
          if (runs_along(box, path.points[p - 1], path.points[p])) return false;
    return true;
  }

  // A line that follows the border instead of crossing it.
  static bool runs_along(const Box& box, Point a, Point b) {
    const Box line{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
    if (a.x == b.x)
      return (std::abs(a.x - box.left) < 2 || std::abs(a.x - box.right) < 2) && line.top < box.bottom + 2 && box.top < line.bottom + 2;
    return (std::abs(a.y - box.top) < 2 || std::abs(a.y - box.bottom) < 2) && line.left < box.right + 2 && box.left < line.right + 2;
  }

  std::vector<Point> crossings(const Box& box) const {
    std::vector<Point> points;
    for (const Routed& net : layout.nets)
      for (const Path& path : net.paths)
        for (std::size_t p = 1; p < path.points.size(); ++p) {
          const Point a = path.points[p - 1], b = path.points[p];
          if (a.x == b.x && a.x > box.left && a.x < box.right)
            for (const int y : {box.top, box.bottom})
              if (std::min(a.y, b.y) < y && y < std::max(a.y, b.y)) points.push_back({a.x, y});
          if (a.y == b.y && a.y > box.top && a.y < box.bottom)
            for (const int x : {box.left, box.right})
              if (std::min(a.x, b.x) < x && x < std::max(a.x, b.x)) points.push_back({x, a.y});
        }
    return points;
  }
};

}  // namespace

void enclose(const Plan& plan, Layout& layout) {
  const Problem& problem = *plan.problem;
  if (problem.groups.empty()) return;
  std::map<std::string, Box> words;
  for (const PlacedText& text : layout.texts) words.emplace(text.id, text.box);
  std::vector<Box> rooms;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    rooms.push_back(box_of(problem, layout, int(i)));
    for (const TextBlock& text : problem.items[i].texts)
      if (const auto at = words.find(text.id); at != words.end()) rooms[i] = hull(rooms[i], at->second);
  }
  Encloser encloser{problem, layout, std::vector<std::vector<int>>(problem.groups.size())};
  for (std::size_t i = 0; i < problem.items.size(); ++i)
    for (int g = problem.items[i].group, guard = 0; g >= 0 && guard < 64; g = problem.groups[g].parent, ++guard)
      encloser.members[g].push_back(int(i));
  for (std::size_t g = 0; g < problem.groups.size(); ++g) {
    if (encloser.members[g].empty()) continue;
    const Box box = encloser.around(int(g), rooms);
    if (encloser.clean(int(g), box, rooms)) layout.enclosures.push_back({int(g), box, encloser.crossings(box)});
    else layout.notes.push_back("no chain line around " + problem.groups[g].id + ": its members stand among others");
  }
}

}  // namespace ferrule::layout
