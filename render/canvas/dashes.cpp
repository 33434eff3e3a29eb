#include "render/canvas/dashes.hpp"

#include <algorithm>
#include <cmath>

namespace ferrule::canvas {
namespace {

struct Stretch {
  double from, to;  // mm along the straight piece
};

// A dash shorter than this many of its nominal length reads as dust: the piece is drawn solid.
constexpr double least_share = 0.75;

std::vector<Stretch> stretches(double length, const Rhythm& rhythm, double width) {
  const double dash = rhythm.dash * width;
  const double gap = (rhythm.dotted ? 2 * rhythm.gap + 1 : rhythm.gap) * width;
  const double count = std::max(2.0, std::round((length + gap) / (dash + gap)));
  const double ink = (length - (count - 1) * gap) / count;
  if (ink < least_share * dash) return {{0, length}};
  std::vector<Stretch> result;
  for (int i = 0; i < static_cast<int>(count); ++i) {
    const double from = i * (ink + gap);
    result.push_back({from, i + 1 == static_cast<int>(count) ? length : from + ink});
    if (rhythm.dotted && i + 1 < static_cast<int>(count))
      result.push_back({from + ink + rhythm.gap * width, from + ink + (rhythm.gap + 1) * width});
  }
  return result;
}

Point along(Point a, Point b, double share) { return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share}; }

// The last dash of the ink so far ends where this piece begins: the corner is one stroke.
void append_piece(std::vector<std::vector<Point>>& ink, Point a, Point b, const Rhythm& rhythm, double width) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length <= 0) return;
  bool corner = !ink.empty();
  for (const Stretch& stretch : stretches(length, rhythm, width)) {
    const Point to = stretch.to == length ? b : along(a, b, stretch.to / length);
    if (corner)
      ink.back().push_back(to);
    else
      ink.push_back({along(a, b, stretch.from / length), to});
    corner = false;
  }
}

}  // namespace

Rhythm rhythm_of(Pattern pattern) {
  switch (pattern) {
    case Pattern::pilot: return {12, 3, false};
    case Pattern::drain: return {5, 3, false};
    case Pattern::chain: return {24, 3, true};
    case Pattern::pilot_in_symbol: return {6, 3, false};
    case Pattern::drain_in_symbol: return {4, 3, false};
    case Pattern::chain_in_symbol: return {12, 3, true};
    case Pattern::dotted: return {1.5, 2.5, false};
    case Pattern::long_dash: return {16, 4, false};
    case Pattern::solid:
    case Pattern::thin: break;
  }
  return {0, 0, false};
}

double drawn_width(double width_mm, Pattern pattern) { return pattern == Pattern::thin ? width_mm / 2 : width_mm; }

std::vector<std::vector<Point>> inked(const std::vector<Point>& points, double width_mm, Pattern pattern, bool closed) {
  if (points.size() < 2) return {};
  std::vector<Point> line = points;
  if (closed) line.push_back(points.front());
  const Rhythm rhythm = rhythm_of(pattern);
  if (rhythm.dash == 0) return {line};
  std::vector<std::vector<Point>> ink;
  for (std::size_t i = 1; i < line.size(); ++i) append_piece(ink, line[i - 1], line[i], rhythm, width_mm);
  if (closed && ink.size() > 1) {  // the first corner too
    ink.back().insert(ink.back().end(), ink.front().begin() + 1, ink.front().end());
    ink.erase(ink.begin());
  }
  return ink;
}

}  // namespace ferrule::canvas
