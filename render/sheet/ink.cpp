#include "render/sheet/ink.hpp"

#include <algorithm>

namespace ferrule::sheet {

bool closer(const Rect& a, const Rect& b, double gap) {
  return a.x < b.right() + gap && b.x < a.right() + gap && a.y < b.bottom() + gap && b.y < a.bottom() + gap;
}

Rect around(const Rect& a, const Rect& b) {
  const double x = std::min(a.x, b.x), y = std::min(a.y, b.y);
  return {x, y, std::max(a.right(), b.right()) - x, std::max(a.bottom(), b.bottom()) - y};
}

Rect moved(const Rect& rect, Point by) { return {rect.x + by.x, rect.y + by.y, rect.w, rect.h}; }

Ink line(std::vector<Point> points, double width, Pattern pattern) {
  Ink ink;
  ink.points = std::move(points);
  ink.width = width;
  ink.pattern = pattern;
  return ink;
}

Ink outline(const Rect& rect, double width, Pattern pattern) {
  Ink ink = line({{rect.x, rect.y}, {rect.right(), rect.y}, {rect.right(), rect.bottom()}, {rect.x, rect.bottom()}}, width, pattern);
  ink.kind = Ink::Kind::closed;
  return ink;
}

Ink words(Point at, std::string text, double capital, Anchor anchor) {
  Ink ink;
  ink.kind = Ink::Kind::words;
  ink.points = {at};
  ink.words = std::move(text);
  ink.style = {capital, anchor, false};
  return ink;
}

namespace {

Rect extent_of_words(const Ink& ink) {
  const canvas::TextSize size = canvas::measured(ink.words, ink.style.capital_mm);
  const double begin = ink.style.anchor == Anchor::left ? 0 : ink.style.anchor == Anchor::middle ? -size.width / 2 : -size.width;
  const Point at = ink.points[0];
  if (ink.style.turned) return {at.x - size.height, at.y - begin - size.width, size.height, size.width};
  return {at.x + begin, at.y - size.height, size.width, size.height};
}

Rect extent_of_one(const Ink& ink) {
  if (ink.kind == Ink::Kind::words) return extent_of_words(ink);
  Rect all{ink.points[0].x - ink.radius, ink.points[0].y - ink.radius, 2 * ink.radius, 2 * ink.radius};
  for (const Point& point : ink.points) all = around(all, {point.x, point.y, 0, 0});
  return all;
}

}  // namespace

Rect extent_of(const Inks& inks) {
  if (inks.empty()) return {};
  Rect all = extent_of_one(inks.front());
  for (const Ink& ink : inks) all = around(all, extent_of_one(ink));
  return all;
}

void move(Inks& inks, Point by) {
  for (Ink& ink : inks)
    for (Point& point : ink.points) point = {point.x + by.x, point.y + by.y};
}

void append(Inks& inks, Inks more) {
  inks.insert(inks.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

void paint(const Inks& inks, canvas::Canvas& canvas) {
  for (const Ink& ink : inks) {
    if (ink.colour != canvas::black) canvas.set_colour(ink.colour);
    switch (ink.kind) {
      case Ink::Kind::line: canvas.polyline(ink.points, ink.width, ink.pattern); break;
      case Ink::Kind::closed: canvas.polyline(ink.points, ink.width, ink.pattern, true); break;
      case Ink::Kind::filled: canvas.polygon(ink.points); break;
      case Ink::Kind::arc: canvas.arc(ink.points[0], ink.radius, ink.from, ink.to, ink.width); break;
      case Ink::Kind::disc: canvas.disc(ink.points[0], ink.radius); break;
      case Ink::Kind::words: canvas.text(ink.points[0], ink.words, ink.style); break;
    }
    if (ink.colour != canvas::black) canvas.set_colour(canvas::black);
  }
}

std::vector<std::string> wrapped(std::string_view words, double width, double capital) {
  std::vector<std::string> lines;
  while (!words.empty()) {
    const std::size_t blank = words.find(' ');
    const std::string word(words.substr(0, blank));
    words.remove_prefix(blank == std::string_view::npos ? words.size() : blank + 1);
    if (word.empty()) continue;
    if (!lines.empty() && canvas::measured(lines.back() + " " + word, capital).width <= width)
      lines.back() += " " + word;
    else
      lines.push_back(word);
  }
  return lines;
}

std::string cut_to(std::string_view words, double width, double capital) {
  if (canvas::measured(words, capital).width <= width) return std::string(words);
  std::size_t kept = words.size();
  while (kept > 0) {
    --kept;
    while (kept > 0 && (static_cast<unsigned char>(words[kept]) & 0xC0) == 0x80) --kept;  // whole characters
    const std::string shorter = std::string(words.substr(0, kept)) + "...";
    if (canvas::measured(shorter, capital).width <= width) return shorter;
  }
  return {};
}

}  // namespace ferrule::sheet
