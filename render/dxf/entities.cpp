#include "render/dxf/entities.hpp"

#include <fmt/format.h>

#include "render/canvas/words.hpp"

namespace ferrule::dxf {
namespace {

using sheet::Ink, sheet::Pattern, sheet::Point;

std::string_view type_of(Pattern pattern) {
  for (const LineType& type : line_types)
    if (type.pattern == pattern) return type.name;
  return {};
}

struct Writer {
  const Ink& ink;
  std::string_view layer;
  double height;

  std::string head(std::string_view kind) const {
    const std::string_view type = type_of(ink.pattern);
    return group(0, kind) + group(8, layer) + (type.empty() ? "" : group(6, type));
  }
  // Codes of the n-th point of an entity: 10 20 30, 11 21 31 ...
  std::string point(Point p, int n = 0) const { return group(10 + n, p.x) + group(20 + n, height - p.y) + group(30 + n, 0.0); }

  std::string vertex(Point p, double bulge = 0) const {
    return group(0, "VERTEX") + group(8, layer) + point(p) + (bulge == 0 ? "" : group(42, bulge));
  }
  std::string polyline(bool closed) const {
    if (ink.points.size() == 2) return head("LINE") + point(ink.points[0]) + point(ink.points[1], 1);
    std::string out = head("POLYLINE") + group(66, 1) + point({0, height}) + group(70, closed ? 1 : 0);
    for (const Point& p : ink.points) out += vertex(p);
    return out + group(0, "SEQEND") + group(8, layer);
  }
  // Corners three and four of a SOLID are crossed; a triangle repeats its last.
  std::string filled() const {
    const auto& p = ink.points;
    if (p.size() < 3 || p.size() > 4) return polyline(true);
    return head("SOLID") + point(p[0]) + point(p[1], 1) + point(p.size() == 4 ? p[3] : p[2], 2) + point(p[2], 3);
  }
  // Two half circles, as wide as the radius, about half of it from the middle.
  std::string disc() const {
    const Point c = ink.points[0];
    const double half = ink.radius / 2;
    return head("POLYLINE") + group(66, 1) + point({0, height}) + group(70, 1) + group(40, ink.radius) + group(41, ink.radius) +
           vertex({c.x - half, c.y}, 1) + vertex({c.x + half, c.y}, 1) + group(0, "SEQEND") + group(8, layer);
  }
  // Ours run clockwise on the sheet for rising angles, DXF counts anticlockwise: what ended first begins.
  std::string arc() const {
    const std::string circle = point(ink.points[0]) + group(40, ink.radius);
    if (std::abs(ink.to - ink.from) >= 360) return head("CIRCLE") + circle;
    const double first = std::max(ink.from, ink.to), last = std::min(ink.from, ink.to);
    return head("ARC") + circle + group(50, -first) + group(51, -last);
  }
  std::string words() const {
    const std::string value = text_value(ink.words);
    if (value.empty()) return {};
    std::string out = head("TEXT") + point(ink.points[0]) + group(40, ink.style.capital_mm) + group(1, value) + group(7, lettering);
    if (ink.style.turned) out += group(50, 90.0);
    if (ink.style.anchor == sheet::Anchor::left) return out;
    return out + group(72, ink.style.anchor == sheet::Anchor::middle ? 1 : 2) + point(ink.points[0], 1);
  }
};

}  // namespace

const std::array<LineType, 8> line_types{{{"PILOT", Pattern::pilot},
                                          {"DRAIN", Pattern::drain},
                                          {"CHAIN", Pattern::chain},
                                          {"PILOT_IN_SYMBOL", Pattern::pilot_in_symbol},
                                          {"DRAIN_IN_SYMBOL", Pattern::drain_in_symbol},
                                          {"CHAIN_IN_SYMBOL", Pattern::chain_in_symbol},
                                          {"DOTTED", Pattern::dotted},
                                          {"LONG_DASH", Pattern::long_dash}}};

std::string group(int code, std::string_view value) { return fmt::format("{}\n{}\n", code, value); }
std::string group(int code, int value) { return fmt::format("{}\n{}\n", code, value); }
std::string group(int code, double value) {
  const std::string text = fmt::format("{:.3f}", value);
  return group(code, text == "-0.000" ? std::string_view("0.000") : std::string_view(text));
}

std::string entity(const Ink& ink, std::string_view layer, double height) {
  const Writer writer{ink, layer, height};
  if (ink.points.empty()) return {};
  switch (ink.kind) {
    case Ink::Kind::line: return ink.points.size() < 2 ? std::string() : writer.polyline(false);
    case Ink::Kind::closed: return ink.points.size() < 2 ? std::string() : writer.polyline(true);
    case Ink::Kind::filled: return writer.filled();
    case Ink::Kind::arc: return writer.arc();
    case Ink::Kind::disc: return writer.disc();
    case Ink::Kind::words: return writer.words();
  }
  return {};
}

std::string text_value(std::string_view words) {
  constexpr std::size_t most = 250;
  std::string out;
  char32_t before = 0;
  for (const char32_t c : canvas::code_points(canvas::clean(words))) {
    const bool control = (c == U'%' && before == U'%') || c == U'\\' || c == U'^';
    std::string next;
    if (c >= 0x20 && c < 0x7F && !control) next = static_cast<char>(c);
    else if (c > 0xFFFF) next = "\\U+FFFD";   // four digits are all there is room for
    else next = fmt::format("\\U+{:04X}", static_cast<unsigned>(c));
    if (out.size() + next.size() > most) break;
    out += next;
    before = control ? 0 : c;
  }
  return out;
}

}  // namespace ferrule::dxf
