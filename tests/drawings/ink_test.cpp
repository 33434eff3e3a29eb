// A tag or a port letter may stand inside the box of its own symbol, but only where the symbol has no stroke: the box of a valve
// with two operators is mostly air. Measured on the strokes as they are painted.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "drawings/drawn.hpp"
#include "support/generator.hpp"

namespace {

using ferrule::sheet::Ink;
using ferrule::sheet::Point;
using ferrule::sheet::Rect;

constexpr double clear_mm = 0.3;   // nearer is a touch (the same limit as for symbols and lines)

// Does a straight stroke come into the box? Clipped against its four sides (Liang and Barsky, 1984).
bool enters(const Rect& box, Point a, Point b) {
  double from = 0, to = 1;
  const double dx = b.x - a.x, dy = b.y - a.y;
  for (const auto& [step, room] : {std::pair{-dx, a.x - box.x}, {dx, box.right() - a.x}, {-dy, a.y - box.y}, {dy, box.bottom() - a.y}}) {
    if (step == 0 && room < 0) return false;
    if (step < 0) from = std::max(from, room / step);
    if (step > 0) to = std::min(to, room / step);
  }
  return from < to;
}

std::vector<Point> corners(const Ink& ink) {
  if (ink.kind == Ink::Kind::words) return {};
  if (ink.kind != Ink::Kind::arc && ink.kind != Ink::Kind::disc) {
    std::vector<Point> points = ink.points;
    if (ink.kind != Ink::Kind::line && !points.empty()) points.push_back(points.front());
    return points;
  }
  std::vector<Point> points;
  constexpr double degree = 3.14159265358979323846 / 180;
  const double from = ink.kind == Ink::Kind::disc ? 0 : ink.from, to = ink.kind == Ink::Kind::disc ? 360 : ink.to;
  for (int i = 0; i <= 72; ++i) {
    const double angle = (from + (to - from) * i / 72) * degree;
    points.push_back({ink.points[0].x + ink.radius * std::cos(angle), ink.points[0].y + ink.radius * std::sin(angle)});
  }
  return points;
}

bool touches(const ferrule::DrawnLabel& label, const Ink& ink) {
  const Rect box{label.box.x - clear_mm, label.box.y - clear_mm, label.box.w + 2 * clear_mm, label.box.h + 2 * clear_mm};
  const std::vector<Point> points = corners(ink);
  for (std::size_t i = 1; i < points.size(); ++i)
    if (enters(box, points[i - 1], points[i])) return true;
  return false;
}

std::vector<std::string> struck(const ferrule::Drawing& drawing) {
  std::vector<std::string> found;
  for (const ferrule::DrawnSheet& sheet : drawing.sheets)
    for (const ferrule::DrawnLabel& label : sheet.labels)
      for (const ferrule::DrawnSymbol& symbol : sheet.symbols)
        if (std::any_of(symbol.inks.begin(), symbol.inks.end(), [&](const Ink& ink) { return touches(label, ink); }))
          found.push_back(label.id + " (" + label.text + ") on " + symbol.id + " " + symbol.kind);
  return found;
}

void check_clear(const std::string& name, const ferrule::Drawing& drawing) {
  const std::vector<std::string> found = struck(drawing);
  std::string first;
  for (std::size_t i = 0; i < std::min<std::size_t>(found.size(), 6); ++i) first += found[i] + "\n";
  INFO(name << "\n" << first);
  CHECK(found.empty());
}

}  // namespace

TEST_CASE("a stroke through a word is found, one beside it is not") {
  ferrule::DrawnLabel label;
  label.box = {10, 10, 5, 2.5};
  const auto stroke = [](std::vector<Point> points) { return ferrule::sheet::line(std::move(points), 0.25); };
  CHECK(touches(label, stroke({{0, 11}, {20, 11}})));
  CHECK(touches(label, stroke({{9, 9}, {16, 13}})));
  CHECK_FALSE(touches(label, stroke({{0, 13}, {20, 13}})));
  CHECK(touches(label, stroke({{0, 12.7}, {20, 12.7}})));
  Ink circle = stroke({{12, 11}});
  circle.kind = Ink::Kind::arc, circle.radius = 2;
  CHECK(touches(label, circle));
  circle.radius = 9;
  CHECK_FALSE(touches(label, circle));
}

TEST_CASE("no word of a sample, pair or machine stands on a stroke of a symbol") {
  for (const char* folder : {"samples", "samples/pairs", "tests/briefs"})
    for (const auto& entry : std::filesystem::directory_iterator(std::string(FERRULE_SOURCE_DIR) + "/" + folder))
      if (entry.path().extension() == ".fer") {
        const std::string path = std::string(folder) + "/" + entry.path().filename().string();
        check_clear(path, drawn::file(path));
      }
}

TEST_CASE("no word of a generated circuit stands on a stroke of a symbol") {
  for (std::uint32_t seed = 1; seed <= 200; ++seed)
    check_clear("seed " + std::to_string(seed), drawn::text(ferrule::tests::generated_circuit(6 + static_cast<int>(seed % 35), seed)));
}
