#include "render/layout/occupied.hpp"

#include <algorithm>

namespace ferrule::layout {

namespace {
constexpr int grain = 24;     // half-M a cell of the index
}

Occupied::Occupied(const Box& area) : area_(area) {
  columns_ = std::max(1, (area.right - area.left) / grain + 1);
  rows_ = std::max(1, (area.bottom - area.top) / grain + 1);
  cells_.resize(std::size_t(columns_) * std::size_t(rows_));
}

Occupied::Span Occupied::span(const Box& box, int gap) const {
  const auto column = [&](int x) { return std::clamp((x - area_.left) / grain, 0, columns_ - 1); };
  const auto row = [&](int y) { return std::clamp((y - area_.top) / grain, 0, rows_ - 1); };
  return {column(box.left - gap), row(box.top - gap), column(box.right + gap), row(box.bottom + gap)};
}

void Occupied::add(const Box& box) {
  const Span s = span(box, 0);
  for (int r = s.r0; r <= s.r1; ++r)
    for (int c = s.c0; c <= s.c1; ++c) cells_[std::size_t(r) * columns_ + c].push_back(int(boxes_.size()));
  boxes_.push_back(box);
}

bool Occupied::free(const Box& box, int gap) const {
  const Span s = span(box, gap);
  for (int r = s.r0; r <= s.r1; ++r)
    for (int c = s.c0; c <= s.c1; ++c)
      for (const int i : cells_[std::size_t(r) * columns_ + c])
        if (meets(box, boxes_[i], gap)) return false;
  return true;
}

Box box_of(const Problem& problem, const Layout& layout, int item) {
  const Placed& placed = layout.items[item];
  const auto [x, y] = placed.at;
  if (problem.items[item].trough) return {x - placed.trough_width / 2, y, x + placed.trough_width / 2, y + placed.trough_height};
  const Box& box = problem.items[item].poses[placed.pose].box;
  return {x + box.left, y + box.top, x + box.right, y + box.bottom};
}

Box box_of_mark(const TankMark& mark) { return {mark.at.x - 2, mark.at.y, mark.at.x + 2, mark.at.y + 6}; }

namespace {

template <typename Visit>
void visit_all(const Problem& problem, const Layout& layout, Visit visit) {
  for (std::size_t i = 0; i < layout.items.size(); ++i)
    if (!problem.items[i].elsewhere) visit(box_of(problem, layout, int(i)));
  for (const TankMark& mark : layout.marks) visit(box_of_mark(mark));
  for (const PlacedText& text : layout.texts) visit(text.box);
  for (const Routed& net : layout.nets)
    for (const Path& path : net.paths)
      for (std::size_t i = 1; i < path.points.size(); ++i) {
        const Point a = path.points[i - 1], b = path.points[i];
        visit(Box{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)});
      }
  for (const Enclosure& enclosure : layout.enclosures) {
    const Box& b = enclosure.box;
    visit(Box{b.left, b.top, b.right, b.top}), visit(Box{b.left, b.bottom, b.right, b.bottom});
    visit(Box{b.left, b.top, b.left, b.bottom}), visit(Box{b.right, b.top, b.right, b.bottom});
  }
}

}  // namespace

Box extent_of(const Problem& problem, const Layout& layout) {
  Box extent;
  bool first = true;
  visit_all(problem, layout, [&](const Box& box) { extent = first ? box : hull(extent, box), first = false; });
  return extent;
}

Occupied occupied(const Problem& problem, const Layout& layout) {
  Box area = extent_of(problem, layout);
  Occupied result({area.left - 200, area.top - 200, area.right + 200, area.bottom + 200});
  visit_all(problem, layout, [&](const Box& box) { result.add(box); });
  return result;
}

}  // namespace ferrule::layout
