// Displacement-step and displacement-time diagram (the form is common practice in fluid power).
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "compiler/quantities/quantity.hpp"
#include "render/plots/frame.hpp"

namespace ferrule::plots {
namespace {

constexpr double lane_height = 14, lane_gap = 5;

std::string stroke_word(const working::Lane& lane) {
  if (lane.turns) return "turns";
  const char* unit = lane.rotates ? "turns" : "mm";
  return fmt::format("{:.4g} {}", lane.stroke / unit_named(unit).value().factor, unit);
}

// The travel of a lane: level where it stands, a slope where it moves, a gap where nothing is known.
void draw_lane(canvas::Canvas& paper, const Rect& row, const working::Lane& lane, const std::vector<double>& bounds) {
  const auto x = [&](std::size_t i) { return row.left + bounds[i] * row.width; };
  const double range = lane.turns ? 1 : std::max(lane.stroke, 1e-9);
  const auto y = [&](double at) { return row.bottom() - at / range * row.height; };
  for (const double edge : {row.top, row.bottom()}) paper.polyline({{row.left, edge}, {row.right(), edge}}, grid_line);
  std::vector<canvas::Point> points;
  const auto flush = [&] {
    if (points.size() > 1) paper.polyline(points, curve);
    points.clear();
  };
  if (lane.turns) {
    for (std::size_t i = 0; i + 1 < bounds.size() && i < lane.at.size(); ++i)
      for (const std::size_t end : {i, i + 1}) points.push_back({x(end), y(lane.at[i].value_or(0))});
  } else {
    for (std::size_t i = 0; i < lane.at.size() && i < bounds.size(); ++i) {
      if (!lane.at[i]) flush();
      else points.push_back({x(i), y(*lane.at[i])});
    }
  }
  flush();
}

}  // namespace

double displacement_height(const working::Course& course, Titled titled) { return (titled == Titled::yes ? 24 : 8) + static_cast<double>(course.lanes.size()) * (lane_height + lane_gap); }

void displacement_diagram(canvas::Canvas& paper, const Rect& place, const working::Course& course, Along along, Titled titled) {
  const bool timed = along == Along::time;
  if (titled == Titled::yes) title(paper, place, timed ? "displacement over time" : "displacement over steps");
  double names = 19;
  for (const working::Lane& lane : course.lanes) names = std::max(names, width_of(lane.tag) + 4);
  const Rect field{place.left + names, place.top + (titled == Titled::yes ? 12 : 5), place.width - names - 22, static_cast<double>(course.lanes.size()) * (lane_height + lane_gap)};
  rule_steps(paper, field, course, along);
  const std::vector<double> bounds = step_bounds(course, along);
  for (std::size_t i = 0; i < course.lanes.size(); ++i) {
    const Rect row{field.left, field.top + lane_gap / 2 + static_cast<double>(i) * (lane_height + lane_gap), field.width, lane_height};
    write(paper, {row.left - 2, row.top + row.height / 2 + lettering / 2}, course.lanes[i].tag, canvas::Anchor::right);
    write(paper, {row.right() + 2, row.top + lettering}, stroke_word(course.lanes[i]));
    if (!course.lanes[i].turns) write(paper, {row.right() + 2, row.bottom()}, "0");
    draw_lane(paper, row, course.lanes[i], bounds);
  }
  paper.polyline({{field.left, field.top}, {field.right(), field.top}, {field.right(), field.bottom()}, {field.left, field.bottom()}}, outline, canvas::Pattern::solid, true);
  if (!timed) return;
  Frame frame{field, axis_for({0, std::accumulate(course.lasts.begin(), course.lasts.end(), 0.0)}, 8), {}};
  const double all = std::accumulate(course.lasts.begin(), course.lasts.end(), 0.0);
  frame.x.high = all;  // the field ends with the cycle
  for (const double tick : frame.x.ticks)
    if (tick <= all * (1 + 1e-9)) {
      paper.polyline({{frame.at_x(tick), field.bottom()}, {frame.at_x(tick), field.bottom() + 1.2}}, outline);
      write(paper, {frame.at_x(tick), field.bottom() + lettering + 2.2}, shown_tick(frame.x, tick), canvas::Anchor::middle);
    }
  write(paper, {field.right() + 2, field.bottom() + lettering + 2.2}, "s");
}

double steps_key(canvas::Canvas& paper, canvas::Point corner, double width, const working::Course& course) {
  double x = corner.x, y = corner.y + lettering;
  for (std::size_t i = 0; i < course.steps.size(); ++i) {
    const std::string words = fitted(fmt::format("{} {}", i + 1, course.steps[i]), width);
    const double room = width_of(words) + 6;
    if (x > corner.x && x + room - 6 > corner.x + width) x = corner.x, y += 2 * lettering;
    write(paper, {x, y}, words);
    x += room;
  }
  return y - corner.y + lettering;
}

}  // namespace ferrule::plots
