// A pump's curve with the points at which the states hold it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compiler/quantities/quantity.hpp"
#include "render/plots/frame.hpp"

namespace ferrule::plots {
namespace {

constexpr double ring = 2.1, near = 2 * ring + 0.4, names_width = 62;

// States that stand at one place of the paper share its mark: "1, 3".
struct Mark {
  canvas::Point at;
  std::vector<std::size_t> states;
};

std::vector<Mark> marks_of(const working::PumpChart& chart, const Frame& frame, double bar, double litre) {
  std::vector<Mark> marks;
  for (std::size_t i = 0; i < chart.stands.size(); ++i) {
    const canvas::Point at{frame.at_x(chart.stands[i].pressure / bar), frame.at_y(chart.stands[i].flow / litre)};
    const auto same = std::find_if(marks.begin(), marks.end(), [&](const Mark& m) { return std::hypot(m.at.x - at.x, m.at.y - at.y) < near; });
    if (same == marks.end()) marks.push_back({at, {i}});
    else same->states.push_back(i);
  }
  return marks;
}

void draw_marks(canvas::Canvas& paper, const std::vector<Mark>& marks) {
  for (std::size_t i = 0; i < marks.size(); ++i) {
    paper.set_colour(canvas::white);
    paper.disc(marks[i].at, ring);
    paper.set_colour(canvas::black);
    paper.arc(marks[i].at, ring, 0, 360, outline);
    write(paper, {marks[i].at.x, marks[i].at.y + 1.25}, std::to_string(i + 1), canvas::Anchor::middle);
  }
}

}  // namespace

void pump_diagram(canvas::Canvas& paper, const Rect& place, const working::PumpChart& chart) {
  const double bar = unit_named("bar").value().factor, litre = unit_named("L/min").value().factor;
  std::vector<double> pressures, flows;
  for (const auto& [p, q] : chart.curve) pressures.push_back(p / bar), flows.push_back(q / litre);
  for (const auto& stand : chart.stands) pressures.push_back(stand.pressure / bar), flows.push_back(stand.flow / litre);
  const Rect plot{place.left, place.top, place.width - names_width, place.height};
  const Frame frame{field_in(plot), axis_for(pressures), axis_for(flows)};
  title(paper, place, fmt::format("{}: delivery over outlet pressure", chart.tag));
  rule_y(paper, frame, "L/min");
  rule_x(paper, frame, "bar");
  std::vector<canvas::Point> points;
  for (const auto& [p, q] : chart.curve) points.push_back({frame.at_x(p / bar), frame.at_y(q / litre)});
  paper.polyline(points, curve);
  const std::vector<Mark> marks = marks_of(chart, frame, bar, litre);
  draw_marks(paper, marks);
  double y = frame.field.top + lettering;
  for (std::size_t i = 0; i < marks.size(); ++i)
    for (const std::size_t state : marks[i].states) {
      if (y > frame.field.bottom()) return write(paper, {plot.right() + 2, y}, "...");
      write(paper, {plot.right() + 2, y}, fitted(fmt::format("{} {}", i + 1, chart.stands[state].state), names_width - 2));
      y += 2 * lettering;
    }
}

}  // namespace ferrule::plots
