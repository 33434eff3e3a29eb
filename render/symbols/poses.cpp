#include <algorithm>
#include <cmath>

#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

int half_modules(double modules) { return static_cast<int>(std::lround(2 * modules)); }

layout::Box box_of(const Figure& figure) {
  const Extent e = figure.room ? *figure.room : extent_of(figure.strokes);
  return {static_cast<int>(std::floor(2 * e.left + 1e-6)), static_cast<int>(std::floor(2 * e.top + 1e-6)),
          static_cast<int>(std::ceil(2 * e.right - 1e-6)), static_cast<int>(std::ceil(2 * e.bottom - 1e-6))};
}

// Pins in the order of the first figure, whatever the variant.
std::vector<layout::Pin> pins_of(const Figure& figure, const Figure& first) {
  std::vector<layout::Pin> pins;
  for (const SymbolPort& wanted : first.ports) {
    const auto port = std::find_if(figure.ports.begin(), figure.ports.end(), [&](const SymbolPort& p) { return p.name == wanted.name; });
    const SymbolPort& found = port == figure.ports.end() ? wanted : *port;
    pins.push_back({found.name, {half_modules(found.x), half_modules(found.y)}, found.side, found.use});
  }
  return pins;
}

// Boxes over the strokes; an oblique piece in short ones, so that they follow it.
std::vector<layout::Box> ink_of(const Figure& figure) {
  constexpr int pieces = 4;
  std::vector<layout::Box> boxes;
  for (const Stroke& stroke : figure.strokes) {
    std::vector<Spot> points = points_of(stroke);
    if (!is_polyline(stroke.kind) && !is_arc(stroke.kind) && points.size() == 2)
      points = {points[0], {points[1].x, points[0].y}, points[1], {points[0].x, points[1].y}, points[0]};
    for (std::size_t i = 1; i < points.size(); ++i) {
      const Spot a = points[i - 1], b = points[i];
      const int parts = a.x == b.x || a.y == b.y ? 1 : pieces;
      for (int k = 0; k < parts; ++k) {
        const auto along = [&](double from, double to, int at) { return 2 * (from + (to - from) * at / parts); };
        const auto [left, right] = std::minmax({along(a.x, b.x, k), along(a.x, b.x, k + 1)});
        const auto [top, bottom] = std::minmax({along(a.y, b.y, k), along(a.y, b.y, k + 1)});
        boxes.push_back({static_cast<int>(std::floor(left + 1e-6)), static_cast<int>(std::floor(top + 1e-6)),
                         static_cast<int>(std::ceil(right - 1e-6)), static_cast<int>(std::ceil(bottom - 1e-6))});
      }
    }
  }
  return boxes;
}

layout::Pose pose_of(const std::vector<Figure>& figures, int variant, bool flip, int quarters) {
  const Figure stands = moved(figures[static_cast<std::size_t>(variant)], {0, 0, quarters, flip});
  layout::Pose pose;
  pose.variant = variant;
  pose.flip = flip;
  pose.quarters = quarters;
  pose.box = box_of(stands);
  pose.centre = {half_modules(stands.centre.x), half_modules(stands.centre.y)};
  pose.pins = pins_of(stands, figures.front());
  pose.ink = ink_of(stands);
  return pose;
}

bool alike(const layout::Pose& a, const layout::Pose& b) {
  const bool boxes = a.box.left == b.box.left && a.box.top == b.box.top && a.box.right == b.box.right && a.box.bottom == b.box.bottom;
  return boxes && a.centre == b.centre &&
         std::equal(a.pins.begin(), a.pins.end(), b.pins.begin(), b.pins.end(),
                    [](const layout::Pin& p, const layout::Pin& q) { return p.at == q.at && p.side == q.side; });
}

bool looks_down(const Figure& figure) {
  int main = 0;
  for (const SymbolPort& port : figure.ports) {
    if (port.use != PortUse::main) continue;
    if (port.side != Side::below) return false;
    ++main;
  }
  return main > 0;
}

std::size_t main_ports(const Figure& figure) {
  return static_cast<std::size_t>(std::count_if(figure.ports.begin(), figure.ports.end(), [](const SymbolPort& p) { return p.use == PortUse::main; }));
}

// A valve row stands as drawn (mirrored it would swap A and B); with two ports there is nothing to swap, with three no A and B.
std::vector<int> quarters_of(const Figure& figure, bool has_variants) {
  if (figure.fixed && main_ports(figure) == 2) return {0, 2};
  if (figure.fixed || figure.upright || looks_down(figure)) return {0};
  if (has_variants) return {0, 1, 3};
  return {0, 2, 1, 3};
}

}  // namespace

std::vector<layout::Pose> poses_of(const std::vector<Figure>& figures) {
  std::vector<layout::Pose> poses;
  for (std::size_t variant = 0; variant < figures.size(); ++variant) {
    const Figure& figure = figures[variant];
    for (const int quarters : quarters_of(figure, figures.size() > 1))
      for (const bool flip : {false, true}) {
        if (flip && figure.fixed && main_ports(figure) > 3) continue;
        layout::Pose pose = pose_of(figures, static_cast<int>(variant), flip, quarters);
        const bool known = std::any_of(poses.begin(), poses.end(), [&](const layout::Pose& other) { return alike(other, pose); });
        if (!known) poses.push_back(std::move(pose));
      }
  }
  return poses;
}

Figure posed(const std::vector<Figure>& figures, const layout::Pose& pose) {
  return moved(figures[static_cast<std::size_t>(pose.variant)], {0, 0, pose.quarters, pose.flip});
}

}  // namespace ferrule::symbols
