#include "render/drawn_inks.hpp"

namespace ferrule {

using layout::NetKind;
using sheet::Ink, sheet::Inks, sheet::Point;

std::string_view word_of(NetKind kind) {
  constexpr std::string_view names[] = {"pressure", "working", "return", "suction", "drain", "pilot", "mechanical"};
  return names[static_cast<int>(kind)];
}

sheet::Pattern pattern_of(NetKind look, bool drain_like_pilot) {
  if (look == NetKind::pilot) return sheet::Pattern::pilot;
  if (look == NetKind::drain) return drain_like_pilot ? sheet::Pattern::pilot : sheet::Pattern::drain;
  return sheet::Pattern::solid;
}

Inks inks_of(const DrawnPath& path, const Drawing& drawing) {
  if (path.look != NetKind::mechanical) return {sheet::line(path.points, drawing.line_mm, pattern_of(path.look, drawing.drain_like_pilot))};
  Inks inks;
  for (std::size_t i = 1; i < path.points.size(); ++i) {
    const Point a = path.points[i - 1], b = path.points[i];
    const double half = drawing.module_mm / 2;
    const double dx = a.x == b.x ? half : 0, dy = a.x == b.x ? 0 : half;
    inks.push_back(sheet::line({{a.x + dx, a.y + dy}, {b.x + dx, b.y + dy}}, drawing.line_mm));
    inks.push_back(sheet::line({{a.x - dx, a.y - dy}, {b.x - dx, b.y - dy}}, drawing.line_mm));
  }
  return inks;
}

Ink dot_at(Point at, const Drawing& drawing) {
  Ink dot;
  dot.kind = Ink::Kind::disc;
  dot.points = {at};
  dot.radius = 0.375 * drawing.module_mm;
  return dot;
}

Inks inks_of(const DrawnLabel& label, const Drawing& drawing) {
  Ink words = sheet::words(label.baseline, label.text, drawing.capital_mm, label.anchor);
  words.style.turned = label.turned;
  Inks inks{std::move(words)};
  if (!label.leader.empty()) inks.push_back(sheet::line(label.leader, drawing.line_mm, sheet::Pattern::thin));
  return inks;
}

Inks inks_of(const DrawnGroup& group, const Drawing& drawing) {
  Inks inks{sheet::outline(group.box, drawing.line_mm, sheet::Pattern::chain)};
  for (const Point& crossing : group.crossings) {
    Ink circle;
    circle.kind = Ink::Kind::arc;
    circle.points = {crossing};
    circle.radius = 0.25 * drawing.module_mm;
    circle.width = drawing.line_mm;
    inks.push_back(std::move(circle));
  }
  return inks;
}

}  // namespace ferrule
