#include "render/readback/ink.hpp"

#include <algorithm>
#include <tuple>

namespace ferrule::readback {
namespace {

auto order(const Piece& piece) { return std::tie(piece.level, piece.at, piece.from); }

// What touches end to end or lies on each other is one piece on paper.
std::vector<Piece> merged(std::vector<Piece> pieces) {
  std::stable_sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return order(a) < order(b); });
  std::vector<Piece> whole;
  for (Piece& piece : pieces) {
    const bool goes_on = !whole.empty() && whole.back().level == piece.level && whole.back().at == piece.at && piece.from <= whole.back().to;
    if (!goes_on) {
      whole.push_back(std::move(piece));
      continue;
    }
    if (whole.back().net != piece.net && !whole.back().meets) whole.back().meets = piece.start();
    whole.back().to = std::max(whole.back().to, piece.to);
  }
  return whole;
}

}  // namespace

int Ink::through(Point p, bool level) const {
  const long at = level ? p.y : p.x, along = level ? p.x : p.y;
  const auto after = std::upper_bound(pieces.begin(), pieces.end(), std::tie(level, at, along),
                                      [](const auto& key, const Piece& piece) { return key < order(piece); });
  if (after == pieces.begin() || !std::prev(after)->touches(p) || std::prev(after)->level != level) return -1;
  return static_cast<int>(std::prev(after) - pieces.begin());
}

Ink ink_of(const Sheet& sheet, std::size_t index, bool shafts) {
  Ink ink;
  for (const Stroke& stroke : sheet.strokes) {
    if (stroke.shaft != shafts) continue;
    for (std::size_t i = 1; i < stroke.points.size(); ++i) {
      const Point a = stroke.points[i - 1], b = stroke.points[i];
      if (a == b) continue;
      if (a.y == b.y) ink.pieces.push_back({true, a.y, std::min(a.x, b.x), std::max(a.x, b.x), stroke.net, {}});
      else if (a.x == b.x) ink.pieces.push_back({false, a.x, std::min(a.y, b.y), std::max(a.y, b.y), stroke.net, {}});
      else ink.faults.push_back({Spot{index, a}, "a line runs neither level nor upright"});
    }
  }
  ink.pieces = merged(std::move(ink.pieces));
  return ink;
}

}  // namespace ferrule::readback
