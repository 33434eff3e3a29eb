// Patterns on paper: metal is hatched, oil shows its condition, what moves is white. Anchored to the sheet, not to the piece.
#include <algorithm>
#include <cmath>

#include "render/sections/section.hpp"

namespace ferrule::sections {
namespace {

using canvas::Point;

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
};

Box bounds(const std::vector<Point>& outline) {
  Box box{outline[0].x, outline[0].y, outline[0].x, outline[0].y};
  for (const Point& p : outline) {
    box.left = std::min(box.left, p.x), box.right = std::max(box.right, p.x);
    box.top = std::min(box.top, p.y), box.bottom = std::max(box.bottom, p.y);
  }
  return box;
}

// Lines y = ±x + c at 45 degrees, cut to the box.
void hatch(canvas::Canvas& paper, const Box& box, double pitch, double slant) {
  const double step = pitch * std::sqrt(2.0);
  const double low = slant > 0 ? box.top - box.right : box.top + box.left, high = slant > 0 ? box.bottom - box.left : box.bottom + box.right;
  for (double c = std::ceil(low / step) * step; c < high; c += step) {
    const auto y_at = [&](double x) { return slant * x + c; };
    double from = box.left, to = box.right;
    const double x1 = (box.top - c) / slant, x2 = (box.bottom - c) / slant;
    from = std::max(from, std::min(x1, x2)), to = std::min(to, std::max(x1, x2));
    if (to - from > 0.05) paper.polyline({{from, y_at(from)}, {to, y_at(to)}}, 0.25);
  }
}

// Calls `put` for the points of a staggered grid that lie inside, `margin` from the edge.
template <class Put>
void on_grid(const Box& box, double dx, double dy, double margin, Put put) {
  for (long row = std::lround(std::ceil((box.top + margin) / dy)); static_cast<double>(row) * dy <= box.bottom - margin; ++row) {
    const double shift = row % 2 ? dx / 2 : 0;
    for (long column = std::lround(std::ceil((box.left + margin - shift) / dx)); static_cast<double>(column) * dx + shift <= box.right - margin; ++column)
      put(static_cast<double>(column) * dx + shift, static_cast<double>(row) * dy);
  }
}

// `fine` shrinks the pattern for narrow drillings, which a coarse one would miss.
void dashes(canvas::Canvas& paper, const Box& box, double fine) {
  on_grid(box, 3.2 * fine, 1.6 * fine, 0.15 * fine, [&](double x, double y) {
    const double from = std::max(box.left, x - fine), to = std::min(box.right, x + fine);
    if (to - from > 0.2 * fine) paper.polyline({{from, y}, {to, y}}, 0.3 * fine);
  });
}

void fill(canvas::Canvas& paper, const Box& box, Oil oil, double fine) {
  switch (oil) {
    case Oil::pressed: return on_grid(box, 1.3 * fine, 0.75 * fine, 0.3 * fine, [&](double x, double y) { paper.disc({x, y}, 0.3 * fine); });
    case Oil::returns: return dashes(paper, box, fine);
    case Oil::circulates: {
      dashes(paper, box, fine);
      const double lower = 0.8 * fine;  // dots between the rows of dashes
      return on_grid({box.left, box.top - lower, box.right, box.bottom - lower}, 3.2 * fine, 1.6 * fine, 0.45 * fine,
                     [&](double x, double y) { paper.disc({x, y + lower}, 0.42 * fine); });
    }
    case Oil::shut_in:
      return on_grid(box, 1.6 * fine, 1.9 * fine, 0.6 * fine, [&](double x, double y) { paper.polyline({{x, y - 0.6 * fine}, {x, y + 0.6 * fine}}, 0.42 * fine); });
    case Oil::air: return;
  }
}

constexpr double fine_for_drillings = 0.5;

struct Painting {
  canvas::Canvas& paper;
  Point origin;
  double scale;

  Point put(Point p) const { return {origin.x + p.x * scale, origin.y + p.y * scale}; }
  std::vector<Point> put(std::vector<Point> points) const {
    for (Point& p : points) p = put(p);
    return points;
  }
  void white(const std::vector<Point>& outline) {
    paper.set_colour(canvas::white);
    paper.polygon(outline);
    paper.set_colour(canvas::black);
  }
};

// All edges first, then all surfaces: pieces of oil join without seams.
void paint_oil(Painting& in, const std::vector<Shape>& shapes, Look look) {
  const auto each = [&](auto act) {
    for (const Shape& shape : shapes)
      if (shape.look == look) act(in.put(shape.outline), shape.oil);
  };
  each([&](const std::vector<Point>& outline, Oil) { in.paper.polyline(outline, 0.5, canvas::Pattern::solid, true); });
  each([&](const std::vector<Point>& outline, Oil) { in.white(outline); });
  const double fine = look == Look::drilling ? fine_for_drillings : 1;
  each([&](const std::vector<Point>& outline, Oil oil) { fill(in.paper, bounds(outline), oil, fine); });
}

void paint_solid(Painting& in, const Shape& shape) {
  const std::vector<Point> outline = in.put(shape.outline);
  const Box box = bounds(outline);
  if (shape.look == Look::coil_on) return in.paper.polygon(outline);
  in.white(outline);
  if (shape.look == Look::housing) hatch(in.paper, box, 2.2, -1);
  if (shape.look == Look::cap) hatch(in.paper, box, 1.7, 1);
  if (shape.look == Look::coil_off) {
    in.paper.polyline({{box.left, box.top}, {box.right, box.bottom}}, 0.18);
    in.paper.polyline({{box.left, box.bottom}, {box.right, box.top}}, 0.18);
  }
  in.paper.polyline(outline, 0.35, canvas::Pattern::solid, true);
}

void paint_arrow_head(Painting& in, Point from, Point tip) {
  const double length = std::hypot(tip.x - from.x, tip.y - from.y), dx = (tip.x - from.x) / length, dy = (tip.y - from.y) / length;
  in.paper.polygon({tip, {tip.x - 2.4 * dx - 0.9 * dy, tip.y - 2.4 * dy + 0.9 * dx}, {tip.x - 2.4 * dx + 0.9 * dy, tip.y - 2.4 * dy - 0.9 * dx}});
}

void paint_stroke(Painting& in, const Stroke& stroke) {
  std::vector<Point> points = in.put(stroke.points);
  if (!stroke.arrow) return in.paper.polyline(points, stroke.width, stroke.pattern);
  in.paper.set_colour(canvas::white);
  in.paper.polyline(points, stroke.width + 1.6);
  in.paper.set_colour(canvas::black);
  const Point from = points.front(), tip = points.back();
  const double length = std::hypot(tip.x - from.x, tip.y - from.y);
  points.back() = {tip.x - (tip.x - from.x) * 2 / length, tip.y - (tip.y - from.y) * 2 / length};
  in.paper.polyline(points, stroke.width);
  paint_arrow_head(in, from, tip);
}

}  // namespace

void paint_section(canvas::Canvas& paper, const Section& figure, Point origin, double scale) {
  Painting in{paper, origin, scale};
  for (const Shape& shape : figure.shapes)
    if (shape.look == Look::housing || shape.look == Look::cap) paint_solid(in, shape);
  paint_oil(in, figure.shapes, Look::oil);
  for (const Shape& shape : figure.shapes)
    if (shape.look == Look::spool) paint_solid(in, shape);
  paint_oil(in, figure.shapes, Look::drilling);
  for (const Shape& shape : figure.shapes)
    if (shape.look == Look::part || shape.look == Look::coil_on || shape.look == Look::coil_off) paint_solid(in, shape);
  for (const Stroke& stroke : figure.strokes) paint_stroke(in, stroke);
  for (const Word& word : figure.words) paper.text(in.put(word.at), word.text, {2.5, canvas::Anchor::middle, false});
}

void paint_sample(canvas::Canvas& paper, Oil oil, Point corner, double width, double height) {
  const std::vector<Point> outline{corner, {corner.x + width, corner.y}, {corner.x + width, corner.y + height}, {corner.x, corner.y + height}};
  paper.polyline(outline, 0.35, canvas::Pattern::solid, true);
  fill(paper, bounds(outline), oil, 1);
}

}  // namespace ferrule::sections
