// Step 11: a pipe's text stands on the piece of its net that parts exactly its near ends from the others, clear of everything.
#include <algorithm>
#include <cstdlib>

#include "render/layout/occupied.hpp"
#include "render/layout/plan.hpp"
#include "render/layout/sides.hpp"

namespace ferrule::layout {

namespace {

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

  void put_net(int n, const KeysAt& ends) {
    const std::vector<Path>& paths = layout.nets[n].paths;
    const Sides sides = sides_of(paths, ends);
    for (const LineText& text : problem.nets[n].texts) {
      Key near = 0;
      for (const End& end : text.near) near += key_of(end);
      std::vector<const Path*> own, all;
      for (std::size_t p = 0; p < paths.size(); ++p) {
        all.push_back(&paths[p]);
        if (parts(sides, p, near)) own.push_back(&paths[p]);
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
  std::vector<KeysAt> ends(problem.nets.size());
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
