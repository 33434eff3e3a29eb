#include "render/findings/way.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace ferrule {
namespace {

using sheet::Point;
using Points = std::vector<Point>;

bool same(Point a, Point b) { return std::fabs(a.x - b.x) < 1e-6 && std::fabs(a.y - b.y) < 1e-6; }
bool holds(const Points& points, Point p) {
  return std::any_of(points.begin(), points.end(), [&](Point q) { return same(p, q); });
}

bool is_part(const DrawnSheet& page, std::string_view tag) {
  return std::any_of(page.symbols.begin(), page.symbols.end(), [&](const DrawnSymbol& symbol) {
    return symbol.id == tag || symbol.stands_for == tag || std::find(symbol.parts.begin(), symbol.parts.end(), tag) != symbol.parts.end();
  });
}

bool is_pipe(const DrawnSheet& page, std::string_view tag) {
  for (const DrawnNet& net : page.nets)
    for (const DrawnPath& path : net.paths)
      if (path.line == tag) return true;
  return false;
}

// A path of a net walked from one of its ends.
struct Step {
  std::size_t path, before;      // index of the step it came from; itself for a first step
  bool backwards;
  Point end;
};

Points walked(const DrawnNet& net, const std::vector<Step>& steps, std::size_t last) {
  std::vector<std::size_t> order{last};
  while (steps[order.back()].before != order.back()) order.push_back(steps[order.back()].before);
  Points way;
  for (auto step = order.rbegin(); step != order.rend(); ++step) {
    Points points = net.paths[steps[*step].path].points;
    if (steps[*step].backwards) std::reverse(points.begin(), points.end());
    way.insert(way.end(), points.begin() + (way.empty() ? 0 : 1), points.end());
  }
  return way;
}

// Breadth first over the paths of a net, which meet at their ends.
Points way_along(const DrawnNet& net, const Points& from, const Points& to) {
  std::vector<Step> steps;
  std::vector<bool> used(net.paths.size(), false);
  const auto walk_from = [&](Point here, std::optional<std::size_t> before) {
    for (std::size_t p = 0; p < net.paths.size(); ++p) {
      const Points& points = net.paths[p].points;
      if (used[p] || points.size() < 2 || (!same(points.front(), here) && !same(points.back(), here))) continue;
      used[p] = true;
      const bool backwards = !same(points.front(), here);
      steps.push_back({p, before.value_or(steps.size()), backwards, backwards ? points.front() : points.back()});
    }
  };
  for (const Point start : from) walk_from(start, {});
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (holds(to, steps[i].end)) return walked(net, steps, i);
    walk_from(steps[i].end, i);
  }
  return {};
}

}  // namespace

Station station_of(const DrawnSheet& page, const std::string& word) {
  if (is_part(page, word)) return {word, "", false};
  if (is_pipe(page, word)) return {word, "", true};
  const std::size_t dot = word.rfind('.');
  if (dot == std::string::npos) return {word, "", false};
  const std::string tag = word.substr(0, dot);
  return {tag, word.substr(dot + 1), !is_part(page, tag) && is_pipe(page, tag)};
}

Points places_of(const DrawnSheet& page, const Station& station) {
  Points places;
  for (const DrawnSymbol& symbol : page.symbols)
    for (const DrawnPort& port : symbol.ports) {
      const bool inside = port.part == station.tag && (station.port.empty() || port.part_port == station.port);
      const bool mark = symbol.stands_for == station.tag && port.use != PortUse::mechanical;
      const bool reservoir = symbol.kind == "reservoir" && symbol.id == station.tag && port.part.empty();
      const bool own = symbol.id == station.tag && port.use != PortUse::mechanical && (station.port.empty() || port.name == station.port);
      if (inside || mark || reservoir || own) places.push_back(port.at);
    }
  return places;
}

Points between(const DrawnSheet& page, const Station& from, const Station& to) {
  const Points starts = places_of(page, from), goals = places_of(page, to);
  if (starts.empty() || goals.empty()) return {};
  for (const DrawnNet& net : page.nets) {
    if (net.kind == layout::NetKind::mechanical) continue;
    if (Points way = way_along(net, starts, goals); !way.empty()) return way;
  }
  return {};
}

Points off_the_sheet(const DrawnSheet& page, const Station& from) {
  Points goals;
  for (const DrawnSymbol& symbol : page.symbols)
    if (symbol.kind == "xref") goals.push_back(symbol.ports.front().at);
  const Points starts = from.port.empty() ? Points{} : places_of(page, from);
  for (const DrawnNet& net : page.nets)
    if (Points way = way_along(net, starts, goals); !way.empty()) return way;
  return {};
}

std::vector<Points> pipe_paths(const DrawnSheet& page, const std::string& tag) {
  std::vector<Points> paths;
  for (const DrawnNet& net : page.nets)
    for (const DrawnPath& path : net.paths)
      if (path.line == tag) paths.push_back(path.points);
  return paths;
}

}  // namespace ferrule
