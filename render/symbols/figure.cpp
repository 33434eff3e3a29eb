#include "render/symbols/figure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ferrule::symbols {
namespace {

using enum StrokeKind;

Stroke moved_polyline(const Stroke& stroke, const Turn& turn) {
  Stroke out = stroke;
  for (std::size_t i = 0; i + 1 < out.numbers.size(); i += 2) {
    const Spot at = turn({stroke.numbers[i], stroke.numbers[i + 1]});
    out.numbers[i] = at.x;
    out.numbers[i + 1] = at.y;
  }
  return out;
}

Stroke moved_rect(const Stroke& stroke, const Turn& turn) {
  const auto& n = stroke.numbers;
  const Spot a = turn({n[0], n[1]}), b = turn({n[0] + n[2], n[1] + n[3]});
  Stroke out = stroke;
  out.numbers = {std::min(a.x, b.x), std::min(a.y, b.y), clean(std::fabs(a.x - b.x)), clean(std::fabs(a.y - b.y))};
  return out;
}

// A plain arc runs clockwise, so a flip swaps its ends; one with a head keeps its sense of travel.
Stroke moved_arc(const Stroke& stroke, const Turn& turn) {
  Stroke out = stroke;
  const Spot at = turn({stroke.numbers[0], stroke.numbers[1]});
  double from = turn.angle(stroke.numbers[3]), to = turn.angle(stroke.numbers[4]);
  if (stroke.kind == arc && turn.flip) std::swap(from, to);
  // A whole turn more or less is the same arc; keeping it in one range makes four quarters give the stroke back.
  const double whole = 360 * std::floor((from + 180) / 360);
  out.numbers = {at.x, at.y, stroke.numbers[2], clean(from - whole), clean(to - whole)};
  return out;
}

std::vector<Spot> points_of_arc(const Stroke& stroke) {
  constexpr int pieces = 48;
  const auto& n = stroke.numbers;
  double to = n[4];
  while (stroke.kind == arc && to <= n[3]) to += 360;
  std::vector<Spot> points;
  for (int i = 0; i <= pieces; ++i) {
    const double radians = (n[3] + (to - n[3]) * i / pieces) * std::numbers::pi / 180;
    points.push_back({n[0] + n[2] * std::cos(radians), n[1] + n[2] * std::sin(radians)});
  }
  return points;
}

std::vector<Spot> box_around(double x, double y, double half) { return {{x - half, y - half}, {x + half, y + half}}; }

StrokeKind dashed(PortUse use) { return use == PortUse::drain ? drain : pilot; }

// Splits the last straight piece off a line that ends at the port.
void dash_end(Strokes& strokes, std::size_t index, Spot port, PortUse use) {
  std::vector<Spot> points = points_of(strokes[index]);
  if (points.front() == port) std::reverse(points.begin(), points.end());
  const Spot last = points.back(), before = points[points.size() - 2];
  const Stroke end = stroke(dashed(use), {before.x, before.y, last.x, last.y});
  if (points.size() == 2) return (void)(strokes[index] = end);
  points.pop_back();
  Stroke rest = stroke(line, {});
  for (const Spot& at : points) rest.numbers.insert(rest.numbers.end(), {at.x, at.y});
  strokes[index] = rest;
  strokes.push_back(end);
}

}  // namespace

Stroke stroke(StrokeKind kind, std::vector<double> numbers) { return {kind, std::move(numbers), {}, 0, false}; }

bool is_polyline(StrokeKind kind) {
  switch (kind) {
    case line: case closed: case fill: case arrow: case arrow2: case pilot: case drain: case chain: case thin: return true;
    default: return false;
  }
}

bool is_arc(StrokeKind kind) { return kind == arc || kind == arc_arrow || kind == arc_arrow2; }

std::vector<Spot> points_of(const Stroke& stroke) {
  const auto& n = stroke.numbers;
  if (is_arc(stroke.kind)) return points_of_arc(stroke);
  if (stroke.kind == rect) return {{n[0], n[1]}, {n[0] + n[2], n[1] + n[3]}};
  if (stroke.kind == text) return box_around(n[0], n[1], n.size() > 2 ? n[2] / 2 : 0.625);
  if (!is_polyline(stroke.kind)) return box_around(n[0], n[1], n.size() > 2 ? n[2] : 0.25);
  std::vector<Spot> points;
  for (std::size_t i = 0; i + 1 < n.size(); i += 2) points.push_back({n[i], n[i + 1]});
  return points;
}

Extent extent_of(const Strokes& strokes) {
  Extent all;
  bool first = true;
  for (const Stroke& stroke : strokes)
    for (const Spot& at : points_of(stroke)) {
      if (first) all = {at.x, at.y, at.x, at.y};
      first = false;
      all = {std::min(all.left, at.x), std::min(all.top, at.y), std::max(all.right, at.x), std::max(all.bottom, at.y)};
    }
  return all;
}

Stroke moved(const Stroke& stroke, const Turn& turn) {
  if (is_polyline(stroke.kind)) return moved_polyline(stroke, turn);
  if (is_arc(stroke.kind)) return moved_arc(stroke, turn);
  if (stroke.kind == rect) return moved_rect(stroke, turn);
  Stroke out = stroke;
  const Spot at = turn({stroke.numbers[0], stroke.numbers[1]});
  out.numbers[0] = at.x;
  out.numbers[1] = at.y;
  return out;
}

Figure moved(const Figure& figure, const Turn& turn) {
  Figure out = figure;
  for (Stroke& stroke : out.strokes) stroke = moved(stroke, turn);
  for (SymbolPort& port : out.ports) {
    const Spot at = turn({port.x, port.y});
    port.x = at.x;
    port.y = at.y;
    port.side = turn.side(port.side);
  }
  for (OperatorEnd& end : out.operators) {
    end.at = turn(end.at);
    end.left = end.left != turn.flip;
  }
  out.centre = turn(out.centre);
  if (figure.room) {
    const Spot a = turn({figure.room->left, figure.room->top}), b = turn({figure.room->right, figure.room->bottom});
    out.room = Extent{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
  }
  return out;
}

void stub_as(Figure& figure, const std::string& port, PortUse use) {
  if (use != PortUse::pilot && use != PortUse::drain) return;
  const auto found = std::find_if(figure.ports.begin(), figure.ports.end(), [&](const SymbolPort& p) { return p.name == port; });
  if (found == figure.ports.end() || found->use != PortUse::main) return;
  const Spot at{found->x, found->y};
  for (std::size_t i = 0; i < figure.strokes.size(); ++i) {
    if (figure.strokes[i].kind != line) continue;
    const std::vector<Spot> points = points_of(figure.strokes[i]);
    if (points.front() == at || points.back() == at) return dash_end(figure.strokes, i, at, use);
  }
}

}  // namespace ferrule::symbols
