// Strokes to ink: millimetres, arrow heads, line types.
#include <cmath>
#include <numbers>

#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

using sheet::Ink;
using sheet::Pattern;
using enum StrokeKind;

// Arrow head: filled, 1 M long, 30 degrees (proportions from memory of ISO 1219-1).
constexpr double head_length = 1, half_head = 0.26795 * head_length;
constexpr double default_capital = 1.25, default_dot = 0.25;

struct Pen {
  canvas::Point at;
  double module_mm, line_mm;
  sheet::Inks inks;

  canvas::Point on_paper(Spot spot) const { return {at.x + spot.x * module_mm, at.y + spot.y * module_mm}; }
  std::vector<canvas::Point> on_paper(const std::vector<Spot>& spots) const {
    std::vector<canvas::Point> points;
    for (const Spot& spot : spots) points.push_back(on_paper(spot));
    return points;
  }
  void line(const std::vector<Spot>& spots, Ink::Kind kind = Ink::Kind::line, Pattern pattern = Pattern::solid) {
    inks.push_back({.kind = kind, .points = on_paper(spots), .width = line_mm, .pattern = pattern, .words = {}, .style = {}, .colour = {}});
  }
  void round(Spot centre, double radius, Ink::Kind kind, double from = 0, double to = 360) {
    inks.push_back({.kind = kind, .points = {on_paper(centre)}, .width = line_mm, .radius = radius * module_mm, .from = from, .to = to,
                    .words = {}, .style = {}, .colour = {}});
  }
};

// Fills a head that comes from `from` and ends at `tip`; the middle of its base, where the line stops so that the tip is sharp.
Spot add_head(Pen& pen, Spot from, Spot tip) {
  const double length = std::hypot(tip.x - from.x, tip.y - from.y);
  if (length < 1e-9) return tip;
  const double ux = (tip.x - from.x) / length, uy = (tip.y - from.y) / length;
  const Spot base{tip.x - ux * head_length, tip.y - uy * head_length};
  pen.line({tip, {base.x - uy * half_head, base.y + ux * half_head}, {base.x + uy * half_head, base.y - ux * half_head}}, Ink::Kind::filled);
  return base;
}

void draw_arrow(Pen& pen, const Stroke& stroke) {
  std::vector<Spot> spots = points_of(stroke);
  const std::size_t last = spots.size() - 1;
  const Spot at_end = add_head(pen, spots[last - 1], spots[last]);
  if (stroke.kind == arrow2) spots[0] = add_head(pen, spots[1], spots[0]);
  spots[last] = at_end;
  pen.line(spots);
}

// Drops the points under a head and puts the head there.
void add_arc_head(Pen& pen, std::vector<Spot>& spots) {
  const Spot tip = spots.back();
  while (spots.size() > 2 && std::hypot(spots.back().x - tip.x, spots.back().y - tip.y) < head_length) spots.pop_back();
  add_head(pen, spots.back(), tip);
}

void draw_arc(Pen& pen, const Stroke& stroke) {
  const auto& n = stroke.numbers;
  if (stroke.kind == arc) {
    const double to = n[4] > n[3] ? n[4] : n[4] + 360;
    return pen.round({n[0], n[1]}, n[2], Ink::Kind::arc, n[3], to);
  }
  std::vector<Spot> spots = points_of(stroke);
  add_arc_head(pen, spots);
  if (stroke.kind == arc_arrow2) {
    std::vector<Spot> back(spots.rbegin(), spots.rend());
    add_arc_head(pen, back);
    spots = back;
  }
  pen.line(spots);
}

// Centred on its point, upright.
void draw_text(Pen& pen, const Stroke& stroke) {
  const auto& n = stroke.numbers;
  const double capital = n.size() > 2 ? n[2] : default_capital;
  pen.inks.push_back(sheet::words(pen.on_paper(Spot{n[0], n[1] + capital / 2}), stroke.name, capital * pen.module_mm, canvas::Anchor::middle));
}

void draw(Pen& pen, const Stroke& stroke) {
  const auto& n = stroke.numbers;
  switch (stroke.kind) {
    case line: return pen.line(points_of(stroke));
    case thin: return pen.line(points_of(stroke), Ink::Kind::line, Pattern::thin);
    case closed: return pen.line(points_of(stroke), Ink::Kind::closed);
    case fill: return pen.line(points_of(stroke), Ink::Kind::filled);
    case rect: return pen.line({{n[0], n[1]}, {n[0] + n[2], n[1]}, {n[0] + n[2], n[1] + n[3]}, {n[0], n[1] + n[3]}}, Ink::Kind::closed);
    case circle: return pen.round({n[0], n[1]}, n[2], Ink::Kind::arc);
    case disc: return pen.round({n[0], n[1]}, n[2], Ink::Kind::disc);
    case dot: return pen.round({n[0], n[1]}, n.size() > 2 ? n[2] : default_dot, Ink::Kind::disc);
    case arc: case arc_arrow: case arc_arrow2: return draw_arc(pen, stroke);
    case arrow: case arrow2: return draw_arrow(pen, stroke);
    case pilot: return pen.line(points_of(stroke), Ink::Kind::line, Pattern::pilot_in_symbol);
    case drain: return pen.line(points_of(stroke), Ink::Kind::line, Pattern::drain_in_symbol);
    case chain: return pen.line(points_of(stroke), Ink::Kind::line, Pattern::chain_in_symbol);
    case text: return draw_text(pen, stroke);
    case use: case symbol: return;  // written out before
  }
}

}  // namespace

sheet::Inks inks_of(const Figure& figure, canvas::Point at, double module_mm, double line_mm) {
  Pen pen{at, module_mm, line_mm, {}};
  for (const Stroke& stroke : figure.strokes) draw(pen, stroke);
  return std::move(pen.inks);
}

}  // namespace ferrule::symbols
