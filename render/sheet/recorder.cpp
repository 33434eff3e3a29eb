#include "render/sheet/recorder.hpp"

namespace ferrule::sheet {

void Recorder::keep(Ink ink) {
  ink.colour = colour_;
  inks.push_back(std::move(ink));
}

void Recorder::polyline(const std::vector<Point>& points, double width_mm, Pattern pattern, bool closed) {
  Ink ink = line(points, width_mm, pattern);
  if (closed) ink.kind = Ink::Kind::closed;
  keep(std::move(ink));
}

void Recorder::polygon(const std::vector<Point>& points) {
  Ink ink = line(points, 0);
  ink.kind = Ink::Kind::filled;
  keep(std::move(ink));
}

void Recorder::arc(Point centre, double radius, double from_degrees, double to_degrees, double width_mm) {
  Ink ink = line({centre}, width_mm);
  ink.kind = Ink::Kind::arc;
  ink.radius = radius;
  ink.from = from_degrees;
  ink.to = to_degrees;
  keep(std::move(ink));
}

void Recorder::disc(Point centre, double radius) {
  Ink ink = line({centre}, 0);
  ink.kind = Ink::Kind::disc;
  ink.radius = radius;
  keep(std::move(ink));
}

void Recorder::text(Point at, std::string_view text, const canvas::TextStyle& style) {
  Ink ink = words(at, std::string(text), style.capital_mm, style.anchor);
  ink.style = style;
  keep(std::move(ink));
}

void scale(Inks& inks, double factor) {
  for (Ink& ink : inks) {
    for (Point& point : ink.points) point = {point.x * factor, point.y * factor};
    ink.width *= factor;
    ink.radius *= factor;
    ink.style.capital_mm *= factor;
  }
}

}  // namespace ferrule::sheet
