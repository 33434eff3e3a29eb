#include "render/findings/flags.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace ferrule {
namespace {

using sheet::Point, sheet::Rect;

constexpr int directions = 24;
constexpr double crossing_costs = 8;      // modules of a longer leader, for one line less to cross
constexpr double rings[] = {2.5, 3.5, 5, 7, 9, 12, 16, 20, 26, 34, 44};  // modules from the frame to the disc's middle
constexpr double clearance = 0.7;         // modules between a disc and its neighbours
constexpr double text_gap = 0.3;          // mm between a leader and what it passes: less would touch

Rect box_of(Point a, Point b) { return {std::min(a.x, b.x), std::min(a.y, b.y), std::fabs(a.x - b.x), std::fabs(a.y - b.y)}; }
Rect disc_box(Point at, double radius) { return {at.x - radius, at.y - radius, 2 * radius, 2 * radius}; }

// Where the ray from the middle leaves the frame.
Point edge_of(const Rect& frame, double dx, double dy) {
  const Point middle = frame.middle();
  const double sideways = dx == 0 ? std::numeric_limits<double>::infinity() : frame.w / 2 / std::fabs(dx);
  const double upright = dy == 0 ? std::numeric_limits<double>::infinity() : frame.h / 2 / std::fabs(dy);
  const double length = std::min(sideways, upright);
  return {middle.x + dx * length, middle.y + dy * length};
}

// Clipping of a stretch to a box (Liang and Barsky 1984).
bool meets(Point a, Point b, const Rect& box) {
  double enter = 0, leave = 1;
  const double steps[] = {a.x - b.x, b.x - a.x, a.y - b.y, b.y - a.y};
  const double rooms[] = {a.x - box.x, box.right() - a.x, a.y - box.y, box.bottom() - a.y};
  for (int side = 0; side < 4; ++side) {
    if (steps[side] == 0) {
      if (rooms[side] < 0) return false;
      continue;
    }
    const double share = rooms[side] / steps[side];
    if (steps[side] < 0) enter = std::max(enter, share);
    else leave = std::min(leave, share);
  }
  return enter <= leave;
}

bool is_free(const Obstacles& obstacles, const Rect& disc, double gap) {
  const auto near = [&](const Rect& other) { return sheet::closer(disc, other, gap); };
  return std::none_of(obstacles.solid.begin(), obstacles.solid.end(), near) && std::none_of(obstacles.lines.begin(), obstacles.lines.end(), near);
}

// What touches the frame itself is not in the leader's way.
bool outside(const Rect& frame, const Rect& box) { return !sheet::closer(frame, box, 0); }

}  // namespace

Obstacles obstacles_on(const DrawnSheet& page) {
  Obstacles obstacles;
  for (const DrawnSymbol& symbol : page.symbols) obstacles.solid.push_back(symbol.box);
  for (const DrawnLabel& label : page.labels) obstacles.solid.push_back(label.box);
  for (const DrawnNet& net : page.nets)
    for (const DrawnPath& path : net.paths)
      for (std::size_t i = 1; i < path.points.size(); ++i) obstacles.lines.push_back(box_of(path.points[i - 1], path.points[i]));
  for (const DrawnGroup& group : page.groups) {
    const Rect& b = group.box;
    for (const Rect& side : {Rect{b.x, b.y, b.w, 0}, Rect{b.x, b.bottom(), b.w, 0}, Rect{b.x, b.y, 0, b.h}, Rect{b.right(), b.y, 0, b.h}}) obstacles.lines.push_back(side);
  }
  return obstacles;
}

namespace {

struct Found {
  DrawnFinding::Flag flag;
  double cost = std::numeric_limits<double>::infinity();  // modules
};

// The best place around one frame, if it is cheaper than what is known.
void look_around(const Rect& frame, double handicap, const Obstacles& obstacles, const Drawing& drawing, Found& best) {
  const double module = drawing.module_mm, radius = disc_radius(drawing);
  const auto blocks = [&](const Rect& box, Point foot, Point at) {
    return outside(frame, box) && meets(foot, at, {box.x - text_gap, box.y - text_gap, box.w + 2 * text_gap, box.h + 2 * text_gap});
  };
  for (const double ring : rings)
    for (int direction = 0; direction < directions && ring + handicap < best.cost; ++direction) {
      const double angle = 2 * std::numbers::pi * (direction + 0.5) / directions;  // a leader is never level or upright
      const double dx = std::cos(angle), dy = std::sin(angle);
      const Point foot = edge_of(frame, dx, dy), at{foot.x + dx * ring * module, foot.y + dy * ring * module};
      if (!is_free(obstacles, disc_box(at, radius), clearance * module)) continue;
      if (std::any_of(obstacles.solid.begin(), obstacles.solid.end(), [&](const Rect& box) { return blocks(box, foot, at); })) continue;
      const auto crossed = std::count_if(obstacles.lines.begin(), obstacles.lines.end(), [&](const Rect& line) { return outside(frame, line) && meets(foot, at, line); });
      const double cost = ring + handicap + crossing_costs * static_cast<double>(crossed);
      if (cost < best.cost) best = {{foot, at}, cost};
    }
}

// A field without a gap: above everything.
DrawnFinding::Flag flag_above(const Rect& frame, const Obstacles& obstacles, double radius) {
  double top = frame.y;
  for (const auto* boxes : {&obstacles.solid, &obstacles.lines})
    for (const Rect& box : *boxes) top = std::min(top, box.y);
  return {{frame.middle().x, frame.y}, {frame.middle().x, top - 2 * radius}};
}

void keep_clear(Obstacles& obstacles, const DrawnFinding::Flag& flag, double radius) {
  constexpr int pieces = 8;
  obstacles.solid.push_back(disc_box(flag.at, radius));
  const auto along = [&](int i) {
    return Point{flag.foot.x + (flag.at.x - flag.foot.x) * i / pieces, flag.foot.y + (flag.at.y - flag.foot.y) * i / pieces};
  };
  for (int i = 0; i < pieces; ++i) obstacles.solid.push_back(box_of(along(i), along(i + 1)));
}

}  // namespace

DrawnFinding::Flag flag_beside(std::span<const Rect> frames, Obstacles& obstacles, const Drawing& drawing) {
  constexpr double handicap = 0.5;  // modules, for every frame that comes later
  Found best;
  for (std::size_t i = 0; i < frames.size(); ++i) look_around(frames[i], handicap * static_cast<double>(i), obstacles, drawing, best);
  if (std::isinf(best.cost)) best.flag = flag_above(frames.front(), obstacles, disc_radius(drawing));
  keep_clear(obstacles, best.flag, disc_radius(drawing));
  return best.flag;
}

}  // namespace ferrule
