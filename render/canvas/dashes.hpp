// Line types of ISO 128-2 as pieces of ink, so that PDF, SVG and PNG dash alike.
#pragma once

#include <vector>

#include "render/canvas/canvas.hpp"

namespace ferrule::canvas {

// In line widths. Lengths from memory of ISO 128-2; inside a symbol, pieces of 1 to 5 modules, they are shorter (house).
struct Rhythm {
  double dash, gap;
  bool dotted;  // a dot of one width in the middle of every gap, with a gap on both sides
};
// A dash of 0 for a line without gaps.
Rhythm rhythm_of(Pattern pattern);

// The inked pieces of a polyline. Every straight piece is cut on its own and begins and ends with a full dash, so corners,
// ends and joints always lie on ink; the dashes that meet in a corner are one piece, which keeps the corner sharp.
// A solid line comes back whole; a closed one repeats its first point.
std::vector<std::vector<Point>> inked(const std::vector<Point>& points, double width_mm, Pattern pattern, bool closed);

// The width that is drawn: electrical leads are half as wide as the rest.
double drawn_width(double width_mm, Pattern pattern);

}  // namespace ferrule::canvas
