// Values that hold for a step each.
#include <array>

#include "compiler/quantities/quantity.hpp"
#include "render/plots/frame.hpp"

namespace ferrule::plots {
namespace {

constexpr std::array patterns{canvas::Pattern::solid, canvas::Pattern::pilot, canvas::Pattern::dotted, canvas::Pattern::chain};

constexpr double sample = 14;  // of a pattern, in the key: room for two chain links

// Further lines repeat the patterns at half the width.
canvas::Pattern pattern_of(std::size_t i) { return patterns[i % patterns.size()]; }
double width_of_line(std::size_t i) { return i < patterns.size() ? curve : curve / 2; }

void key(canvas::Canvas& paper, const Rect& place, double from, const std::vector<working::Trace>& traces) {
  double x = from;
  for (std::size_t i = 0; i < traces.size(); ++i) {
    const double room = sample + 2 + width_of(traces[i].name) + 5;
    if (x + room > place.right()) return write(paper, {x, place.top + 3.5}, "...");
    paper.polyline({{x, place.top + 2.3}, {x + sample, place.top + 2.3}}, width_of_line(i), pattern_of(i));
    write(paper, {x + sample + 2, place.top + 3.5}, traces[i].name);
    x += room;
  }
}

// Level through each step, upright where it changes; a gap where the step has no numbers.
void draw(canvas::Canvas& paper, const Frame& frame, const working::Trace& trace, double factor, const std::vector<double>& bounds, std::size_t number) {
  std::vector<canvas::Point> points;
  const auto flush = [&] {
    if (points.size() > 1) paper.polyline(points, width_of_line(number), pattern_of(number));
    points.clear();
  };
  for (std::size_t i = 0; i < trace.by_step.size(); ++i) {
    if (!trace.by_step[i]) {
      flush();
      continue;
    }
    const double y = frame.at_y(*trace.by_step[i] / factor);
    for (const std::size_t end : {i, i + 1}) points.push_back({frame.field.left + bounds[end] * frame.field.width, y});
  }
  flush();
}

}  // namespace

void trace_diagram(canvas::Canvas& paper, const Rect& place, const std::string& words, std::string_view unit, const std::vector<working::Trace>& traces,
                   const working::Course& course) {
  const double factor = unit_named(unit).value().factor;
  std::vector<double> values;
  for (const working::Trace& trace : traces)
    for (const auto& value : trace.by_step)
      if (value) values.push_back(*value / factor);
  const Frame frame{field_in(place), Axis{}, axis_for(values)};
  title(paper, place, words);
  key(paper, place, place.left + canvas::measured(words, 3.5).width + 10, traces);
  const Along along = course.lasts.empty() ? Along::steps : Along::time;
  rule_y(paper, frame, unit);
  rule_steps(paper, frame.field, course, along);
  const std::vector<double> bounds = step_bounds(course, along);
  for (std::size_t i = 0; i < traces.size(); ++i) draw(paper, frame, traces[i], factor, bounds, i);
}

}  // namespace ferrule::plots
