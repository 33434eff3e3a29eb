// Step 11: a pipe's text stands on the piece of its net that parts exactly its near ends from the others, clear of everything.
#include <algorithm>
#include <cstdlib>
#include <map>
#include <tuple>

#include "render/layout/occupied.hpp"
#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

using Key = std::uint64_t;

// A sum of keys tells a set of ends apart from another (splitmix64, public domain constants).
Key key_of(const End& end) {
  Key z = (Key(std::uint32_t(end.item)) << 32 | std::uint32_t(end.pin)) + 0x9e3779b97f4a7c15ULL;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

struct PointOrder {
  bool operator()(const Point& a, const Point& b) const { return std::tie(a.x, a.y) < std::tie(b.x, b.y); }
};

// For every path of a net: the sum of the keys of the ends on its far side.
struct Sides {
  std::map<Point, std::vector<int>, PointOrder> at;     // point -> paths that end there
  std::vector<Key> beyond;
  Key total = 0;

  Sides(const std::vector<Path>& paths, const std::map<Point, Key, PointOrder>& ends) : beyond(paths.size(), 0) {
    for (std::size_t p = 0; p < paths.size(); ++p) {
      at[paths[p].points.front()].push_back(int(p));
      at[paths[p].points.back()].push_back(int(p));
    }
    if (paths.empty()) return;
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
        if (order.size() > 2 * paths.size() + 2) return;      // not a tree: no text rather than a hang
      }
    }
    parent.resize(order.size(), -1);
    for (std::size_t i = order.size(); i-- > 0;) {
      const auto end = ends.find(order[i].point);
      Key& sum = order[i].path < 0 ? total : beyond[order[i].path];
      if (end != ends.end()) sum += end->second;
      if (parent[i] >= 0) (order[parent[i]].path < 0 ? total : beyond[order[parent[i]].path]) += sum;
    }
  }
};

struct Straight { Point a, b; };

int length(const Straight& s) { return std::abs(s.a.x - s.b.x) + std::abs(s.a.y - s.b.y); }

struct Letterer {
  const Problem& problem;
  Layout& layout;
  Occupied& taken;

  void keep(const LineText& text, const Box& box, PlacedText::Align align, bool turned, std::vector<Point> leader = {}) {
    PlacedText placed;
    placed.id = text.id, placed.box = box, placed.align = align, placed.turned = turned, placed.leader = std::move(leader);
    taken.add(box);
    layout.texts.push_back(std::move(placed));
  }

  static std::vector<Straight> straights(const std::vector<const Path*>& paths) {
    std::vector<Straight> all;
    for (const Path* path : paths)
      for (std::size_t i = 1; i < path->points.size(); ++i) all.push_back({path->points[i - 1], path->points[i]});
    std::stable_sort(all.begin(), all.end(), [](const Straight& s, const Straight& t) { return length(s) > length(t); });
    return all;
  }

  bool try_at(const LineText& text, const Box& box, PlacedText::Align align, bool turned) {
    if (!taken.free(box, 1)) return false;
    keep(text, box, align, turned);
    return true;
  }

  // From the middle outward, a module at a time, first the preferred side.
  bool beside(const LineText& text, const Straight& s, bool turned) {
    const bool level = s.a.y == s.b.y;
    const int w = turned ? text.height : text.width, h = turned ? text.width : text.height;
    if (turned && level) return false;
    const int low = (level ? std::min(s.a.x, s.b.x) : std::min(s.a.y, s.b.y)) + 2;
    const int high = (level ? std::max(s.a.x, s.b.x) : std::max(s.a.y, s.b.y)) - 2 - (level ? w : h);
    if (low > high) return false;
    const int middle = (low + high) / 2;
    for (int away = 0; away <= (high - low) / 2 + 1; away += 2)
      for (const int at : {middle - away, middle + away}) {
        if (at < low || at > high) continue;
        if (level && try_at(text, {at, s.a.y - 2 - h, at + w, s.a.y - 2}, PlacedText::Align::left, false)) return true;
        if (!level && try_at(text, {s.a.x + 2, at, s.a.x + 2 + w, at + h}, PlacedText::Align::left, turned)) return true;
        if (!level && try_at(text, {s.a.x - 2 - w, at, s.a.x - 2, at + h}, PlacedText::Align::right, turned)) return true;
        if (level && try_at(text, {at, s.a.y + 2, at + w, s.a.y + 2 + h}, PlacedText::Align::left, false)) return true;
      }
    return false;
  }

  // The nearest free place in growing rings, tied to the line by a leader. Outside the drawing there always is one.
  void with_leader(const LineText& text, const Straight& s) {
    const Point foot{(s.a.x + s.b.x) / 2, (s.a.y + s.b.y) / 2};
    for (int ring = 4;; ring += 4)
      for (int step = -ring; step <= ring; step += 4)
        for (const Point corner : {Point{ring, step}, Point{-ring - text.width, step}, Point{step, -ring - text.height}, Point{step, ring}}) {
          const Point at{foot.x + corner.x, foot.y + corner.y};
          const Box box{at.x, at.y, at.x + text.width, at.y + text.height};
          if (!taken.free(box, 1)) continue;
          const Point near{std::clamp(foot.x, box.left, box.right), std::clamp(foot.y, box.top, box.bottom)};
          return keep(text, box, PlacedText::Align::left, false, {near, foot});
        }
  }

  void put(const LineText& text, const std::vector<Straight>& pieces) {
    for (const bool turned : {false, true})
      for (const Straight& piece : pieces)
        if (beside(text, piece, turned)) return;
    if (!pieces.empty()) with_leader(text, pieces.front());
  }

  void put_net(int n, const std::map<Point, Key, PointOrder>& ends) {
    const std::vector<Path>& paths = layout.nets[n].paths;
    const Sides sides(paths, ends);
    for (const LineText& text : problem.nets[n].texts) {
      Key near = 0;
      for (const End& end : text.near) near += key_of(end);
      std::vector<const Path*> own, all;
      for (std::size_t p = 0; p < paths.size(); ++p) {
        all.push_back(&paths[p]);
        if (sides.beyond[p] == near || sides.total - sides.beyond[p] == near) own.push_back(&paths[p]);
      }
      if (own.empty() && !text.near.empty() && paths.size() > 1)
        layout.notes.push_back("the text " + text.id + " names ends that no single piece of its line parts from the others");
      put(text, straights(own.empty() ? all : own));
    }
  }
};

}  // namespace

void place_line_texts(const Plan& plan, Layout& layout) {
  const Problem& problem = *plan.problem;
  Occupied taken = occupied(problem, layout);
  std::vector<std::map<Point, Key, PointOrder>> ends(problem.nets.size());
  for (const Tap& tap : plan.taps) {
    if (plan.nodes[tap.node].kind != Node::Kind::symbol) continue;
    const Point at = plan.nodes[tap.node].stand().pins[tap.pin].at;
    ends[tap.net][{plan.nodes[tap.node].x + at.x, plan.nodes[tap.node].y + at.y}] += key_of(tap.end);
  }
  for (const auto* list : {&layout.marks, &layout.entries})
    for (const TankMark& mark : *list) ends[mark.net][mark.at] += key_of(mark.end);
  Letterer letterer{problem, layout, taken};
  for (std::size_t n = 0; n < problem.nets.size(); ++n)
    if (!problem.nets[n].texts.empty()) letterer.put_net(int(n), ends[n]);
}

}  // namespace ferrule::layout
