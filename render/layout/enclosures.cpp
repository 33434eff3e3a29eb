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
    for (const TankMark& mark : layout.marks)
      if (drains(mark, group)) box = hull(box, box_of_mark(mark));
    int depth = 0;
    for (std::size_t g = 0; g < problem.groups.size(); ++g) depth += problem.groups[g].parent == group;
    const int room = border * (depth ? 2 : 1);
    return {box.left - room, box.top - room - problem.groups[group].height, box.right + room, box.bottom + room};
  }

  // In the strip under the upper border, from the right until no line is in the way.
  void put_name(int group, const Box& box) const {
    const Group& named = problem.groups[group];
    if (named.height == 0) return;
    for (int right = box.right - 2; right - named.width >= box.left + 2; --right) {
      const Box words{right - named.width, box.top + 2, right, box.top + 2 + named.height};
      if (!free_of_lines(words)) continue;
      PlacedText text;
      text.id = "group:" + named.id, text.box = words, text.align = PlacedText::Align::right;
      layout.texts.push_back(std::move(text));
      return;
    }
    layout.notes.push_back("no room for the name of " + named.id + " at its chain line");
  }

  bool free_of_lines(const Box& words) const {
    for (const Routed& net : layout.nets)
      for (const Path& path : net.paths)
        for (std::size_t p = 1; p < path.points.size(); ++p) {
          const Point a = path.points[p - 1], b = path.points[p];
          if (meets(words, {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)}, 1)) return false;
        }
    return std::none_of(layout.texts.begin(), layout.texts.end(), [&](const PlacedText& other) { return meets(words, other.box, 1); });
  }

  // A tank mark hangs inside with the members it drains, or stands outside.
  bool splits_mark(int group, const Box& box) const {
    return std::any_of(layout.marks.begin(), layout.marks.end(), [&](const TankMark& mark) {
      const Box at = box_of_mark(mark);
      const bool within = at.left > box.left && at.right < box.right && at.top > box.top && at.bottom < box.bottom;
      return drains(mark, group) ? !within : meets(box, at, 1);
    });
  }

  // All that the mark's line joins belongs to the group.
  bool drains(const TankMark& mark, int group) const {
    const std::vector<End>& ends = problem.nets[mark.net].ends;
    return std::all_of(ends.begin(), ends.end(), [&](const End& end) { return problem.items[end.item].trough || inside(group, end.item); });
  }

  bool clean(int group, const Box& box, const std::vector<Box>& rooms) const {
    if (splits_mark(group, box)) return false;
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
    if (encloser.clean(int(g), box, rooms)) {
      layout.enclosures.push_back({int(g), box, encloser.crossings(box)});
      encloser.put_name(int(g), box);
    } else layout.notes.push_back("no chain line around " + problem.groups[g].id + ": its members stand among others");
  }
}

}  // namespace ferrule::layout
