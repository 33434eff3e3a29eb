#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

Stroke pipe(const TroughEntry& entry, double height) {
  const StrokeKind kind = entry.use == PortUse::drain ? StrokeKind::drain : entry.use == PortUse::pilot ? StrokeKind::pilot : StrokeKind::line;
  return stroke(kind, {entry.x, 0, entry.x, entry.above_level ? height / 4 : height - 1});
}

}  // namespace

Figure trough_figure(double width, double height, bool covered, const std::vector<TroughEntry>& entries) {
  Figure figure;
  figure.name = "trough";
  const double left = -width / 2, right = width / 2;
  if (covered) figure.strokes.push_back(stroke(StrokeKind::closed, {left, 0, right, 0, right, height, left, height}));
  else figure.strokes.push_back(stroke(StrokeKind::line, {left, 0, left, height, right, height, right, 0}));
  for (const TroughEntry& entry : entries) {
    figure.strokes.push_back(pipe(entry, height));
    figure.ports.push_back({entry.port, entry.x, 0, Side::above, entry.use});
  }
  figure.centre = {0, height / 2};
  figure.upright = true;
  figure.trough = true;
  return figure;
}

}  // namespace ferrule::symbols
