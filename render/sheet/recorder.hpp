// A canvas that keeps what is drawn on it: so whatever paints itself can be made smaller and put on a page.
#pragma once

#include "render/sheet/ink.hpp"

namespace ferrule::sheet {

class Recorder final : public canvas::Canvas {
 public:
  Inks inks;   // of all sheets, in the order of drawing

  void new_sheet(double, double, const std::string&) override { colour_ = canvas::black; }
  void polyline(const std::vector<Point>& points, double width_mm, Pattern pattern, bool closed) override;
  void polygon(const std::vector<Point>& points) override;
  void arc(Point centre, double radius, double from_degrees, double to_degrees, double width_mm) override;
  void disc(Point centre, double radius) override;
  void text(Point at, std::string_view words, const canvas::TextStyle& style) override;
  void set_colour(canvas::Colour colour) override { colour_ = colour; }
  void begin_group(const std::string&, const std::string&, const std::string&) override {}
  void end_group() override {}
  void place(const std::string&, Point) override {}
  void link(Point, double, double, const std::string&) override {}
  void bookmark(std::string_view, const std::string&, int) override {}
  std::string finish() override { return {}; }

 private:
  void keep(Ink ink);
  canvas::Colour colour_ = canvas::black;
};

// Everything by the same factor, widths and letters too, about the origin.
void scale(Inks& inks, double factor);

}  // namespace ferrule::sheet
