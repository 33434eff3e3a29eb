// What stands on a sheet, before any paper is chosen: strokes and words in millimetres.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/canvas/canvas.hpp"

namespace ferrule::sheet {

using canvas::Anchor;
using canvas::Pattern;
using canvas::Point;

struct Rect {
  double x = 0, y = 0, w = 0, h = 0;  // mm, y down
  double right() const { return x + w; }
  double bottom() const { return y + h; }
  Point middle() const { return {x + w / 2, y + h / 2}; }
};

// Nearer than `gap` to each other, or overlapping.
bool closer(const Rect& a, const Rect& b, double gap);
Rect around(const Rect& a, const Rect& b);
Rect moved(const Rect& rect, Point by);

struct Ink {
  enum class Kind { line, closed, filled, arc, disc, words } kind = Kind::line;
  std::vector<Point> points;      // arc, disc: the centre; words: the end of the baseline that the anchor names
  double width = 0.25;            // of the line
  Pattern pattern = Pattern::solid;
  double radius = 0, from = 0, to = 360;
  std::string words;
  canvas::TextStyle style;
  canvas::Colour colour;
};
using Inks = std::vector<Ink>;

Ink line(std::vector<Point> points, double width, Pattern pattern = Pattern::solid);
Ink outline(const Rect& rect, double width, Pattern pattern = Pattern::solid);
Ink words(Point at, std::string text, double capital, Anchor anchor = Anchor::left);
// What they cover, words by their width and height; the width of a line does not count. All zero when there are none.
Rect extent_of(const Inks& inks);
void move(Inks& inks, Point by);
void append(Inks& inks, Inks more);

void paint(const Inks& inks, canvas::Canvas& canvas);

// The words in lines no wider than `width` mm; a word wider than that stands alone.
std::vector<std::string> wrapped(std::string_view words, double width, double capital);
// At most `width` mm, cut with three points when longer.
std::string cut_to(std::string_view words, double width, double capital);

}  // namespace ferrule::sheet
