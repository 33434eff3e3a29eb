// SVG by our own writer: one escaping function, ids from the circuit, no script, no font and no file from outside.
//
// Letters are drawn as outlines of the packaged face, so a sheet looks the same in every viewer. The same text lies over them
// without ink, so that a browser can find it, select it and read it aloud.
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include <ft2build.h>
#include FT_OUTLINE_H

#include "render/canvas/dashes.hpp"
#include "render/canvas/lettering.hpp"
#include "render/canvas/surfaces.hpp"
#include "render/canvas/words.hpp"

namespace ferrule::canvas {
namespace {

// What a screen reader reads as one thing by its title (WAI-ARIA Graphics Module 1.0, with the role older readers know).
constexpr const char* object_role = " role=\"graphics-object group\"";

// Thousandths of a millimetre, without trailing zeros: short, and the same in every locale.
std::string mm(double value) {
  std::string text = fmt::format("{:.3f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string path_of(const std::vector<Point>& points, bool closed) {
  std::string path;
  for (std::size_t i = 0; i < points.size(); ++i)
    path += (i == 0 ? "M" : " L") + mm(points[i].x) + " " + mm(points[i].y);
  return closed ? path + "Z" : path;
}

// ---------------------------------------------------------------- outlines of the face

int move_to(const FT_Vector* to, void* path) {
  auto& out = *static_cast<std::string*>(path);
  out += fmt::format("{}M{} {}", out.empty() ? "" : "Z", to->x, to->y);
  return 0;
}
int line_to(const FT_Vector* to, void* path) {
  *static_cast<std::string*>(path) += fmt::format("L{} {}", to->x, to->y);
  return 0;
}
int conic_to(const FT_Vector* by, const FT_Vector* to, void* path) {
  *static_cast<std::string*>(path) += fmt::format("Q{} {} {} {}", by->x, by->y, to->x, to->y);
  return 0;
}
int cubic_to(const FT_Vector* a, const FT_Vector* b, const FT_Vector* to, void* path) {
  *static_cast<std::string*>(path) += fmt::format("C{} {} {} {} {} {}", a->x, a->y, b->x, b->y, to->x, to->y);
  return 0;
}

std::string outline_of(unsigned glyph) {
  std::string path;
  if (FT_Load_Glyph(face(), glyph, FT_LOAD_NO_SCALE) != 0) return path;
  const FT_Outline_Funcs pen{move_to, line_to, conic_to, cubic_to, 0, 0};
  FT_Outline_Decompose(&face()->glyph->outline, &pen, &path);
  return path.empty() ? path : path + "Z";
}

// ---------------------------------------------------------------- the file

class Svg final : public Canvas {
 public:
  explicit Svg(const DocumentData& data) : data_(data) {}

  // Sheets of one file stand one below the other.
  void new_sheet(double width_mm, double height_mm, const std::string& name) override {
    if (sheets_++ > 0) body_ += "</g>\n";
    body_ += fmt::format("<g id=\"{}\" class=\"sheet\" transform=\"translate(0 {})\">\n", own_id("sheet-" + name), mm(height_));
    set_colour(black);
    width_ = std::max(width_, width_mm);
    height_ += height_mm;
  }
  void polyline(const std::vector<Point>& points, double width_mm, Pattern pattern, bool closed) override {
    const bool whole = pattern == Pattern::solid || pattern == Pattern::thin;
    std::string path;
    for (const auto& piece : inked(points, width_mm, pattern, closed && !whole)) path += path_of(piece, closed && whole);
    stroke(path, drawn_width(width_mm, pattern));
  }
  void polygon(const std::vector<Point>& points) override { body_ += "<path fill=\"" + colour_ + "\" stroke=\"none\" d=\"" + path_of(points, true) + "\"/>\n"; }
  void arc(Point centre, double radius, double from_degrees, double to_degrees, double width_mm) override {
    if (std::abs(to_degrees - from_degrees) >= 360) {
      body_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" stroke-width=\"{}\"{}/>\n", mm(centre.x), mm(centre.y), mm(radius), mm(width_mm), stroke_colour());
      return;
    }
    const Point from = on_circle(centre, radius, from_degrees), to = on_circle(centre, radius, to_degrees);
    const bool large = std::abs(to_degrees - from_degrees) > 180, clockwise = to_degrees > from_degrees;
    stroke(fmt::format("M{} {}A{} {} 0 {} {} {} {}", mm(from.x), mm(from.y), mm(radius), mm(radius), large ? 1 : 0, clockwise ? 1 : 0,
                       mm(to.x), mm(to.y)), width_mm);
  }
  void disc(Point centre, double radius) override {
    body_ += fmt::format("<circle fill=\"{}\" stroke=\"none\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", colour_, mm(centre.x), mm(centre.y), mm(radius));
  }
  void text(Point at, std::string_view words, const TextStyle& style) override {
    const Lettering& shaped = lettering(words);
    if (shaped.glyphs.empty()) return;
    const double width = shaped.width * style.capital_mm;
    const double shift = style.anchor == Anchor::left ? 0 : style.anchor == Anchor::middle ? width / 2 : width;
    std::string place = fmt::format("translate({} {})", mm(at.x - (style.turned ? 0 : shift)), mm(at.y + (style.turned ? shift : 0)));
    if (style.turned) place += " rotate(-90)";
    body_ += fmt::format("<g class=\"lettering\" transform=\"{}\">", place);
    letters(shaped, style.capital_mm);
    body_ += fmt::format("<text stroke=\"none\" font-family=\"osifont, sans-serif\" font-size=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\">{}</text></g>\n",
                         mm(style.capital_mm * units_per_em() / units_per_capital()), mm(width), xml_escaped(words));
  }
  void set_colour(Colour colour) override {
    colour_ = colour == black ? "#000" : fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
  }
  void begin_group(const std::string& id, const std::string& css_class, const std::string& title) override {
    body_ += fmt::format("<g id=\"{}\" class=\"{}\"{}>", own_id(id), xml_escaped(css_class), title.empty() ? "" : object_role);
    if (!title.empty()) body_ += "<title>" + xml_escaped(title) + "</title>";
    body_ += "\n";
  }
  void end_group() override { body_ += "</g>\n"; }
  void place(const std::string&, Point) override {}
  void link(Point, double, double, const std::string&) override {}
  void bookmark(std::string_view, const std::string&, int) override {}

  std::string finish() override {
    if (sheets_ > 0) body_ += "</g>\n";
    std::string file = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    file += fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" "
                        "fill=\"none\" stroke=\"#000\" stroke-linecap=\"butt\" stroke-linejoin=\"miter\" stroke-miterlimit=\"10\" role=\"graphics-document document\" aria-labelledby=\"title\" aria-describedby=\"subject\" xml:lang=\"en\">\n",
                        mm(width_), mm(height_));
    file += "<title id=\"title\">" + xml_escaped(data_.title) + "</title>\n<desc id=\"subject\">" + xml_escaped(data_.subject) + "</desc>\n";
    file += "<defs>\n" + defined_letters() + "</defs>\n";
    file += fmt::format("<rect width=\"{}\" height=\"{}\" fill=\"#fff\" stroke=\"none\"/>\n", mm(width_), mm(height_));
    return file + body_ + "</svg>\n";
  }

 private:
  std::string stroke_colour() const { return colour_ == "#000" ? std::string() : " stroke=\"" + colour_ + "\""; }
  static Point on_circle(Point centre, double radius, double degrees) {
    const double angle = degrees * std::numbers::pi / 180;
    return {centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)};
  }
  void stroke(const std::string& path, double width_mm) {
    body_ += fmt::format("<path d=\"{}\" stroke-width=\"{}\"{}/>\n", path, mm(width_mm), stroke_colour());
  }
  void letters(const Lettering& shaped, double capital) {
    body_ += fmt::format("<g fill=\"{}\" stroke=\"none\" aria-hidden=\"true\" transform=\"scale({:.6f} -{:.6f})\">", colour_, capital / units_per_capital(),
                         capital / units_per_capital());
    for (const Glyph& glyph : shaped.glyphs) {
      if (!outlines_.contains(glyph.index)) outlines_[glyph.index] = outline_of(glyph.index);
      if (outlines_[glyph.index].empty()) continue;
      body_ += fmt::format("<use href=\"#letter-{}\" x=\"{}\"", glyph.index, std::lround(glyph.x * units_per_capital()));
      if (glyph.y != 0) body_ += fmt::format(" y=\"{}\"", std::lround(-glyph.y * units_per_capital()));
      body_ += "/>";
    }
    body_ += "</g>";
  }
  std::string defined_letters() const {
    std::string defs;
    for (const auto& [glyph, path] : outlines_)
      if (!path.empty()) defs += fmt::format("<path id=\"letter-{}\" d=\"{}\"/>\n", glyph, path);
    return defs;
  }
  // Ids of a file are unique: a repeated one gets the next number.
  std::string own_id(const std::string& wanted) {
    const std::string base = xml_id(wanted);
    std::string id = base;
    for (int next = 2; !ids_.insert(id).second; ++next) id = fmt::format("{}-{}", base, next);
    return id;
  }

  DocumentData data_;
  std::string body_, colour_ = "#000";
  std::map<unsigned, std::string> outlines_;
  std::set<std::string> ids_;
  double width_ = 0, height_ = 0;
  int sheets_ = 0;
};

}  // namespace

std::unique_ptr<Canvas> new_svg(const DocumentData& data) { return std::make_unique<Svg>(data); }

}  // namespace ferrule::canvas
