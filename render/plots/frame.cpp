#include "render/plots/frame.hpp"

#include <algorithm>
#include <numeric>

namespace ferrule::plots {
namespace {

constexpr double room_left = 19, room_right = 4, room_above = 12, room_below = 12;

}  // namespace

void write(canvas::Canvas& paper, canvas::Point at, std::string_view words, canvas::Anchor anchor) { paper.text(at, words, {lettering, anchor, false}); }

double width_of(std::string_view words) { return canvas::measured(words, lettering).width; }

std::string fitted(std::string_view words, double width) {
  if (width_of(words) <= width) return std::string(words);
  std::string kept(words);
  while (!kept.empty() && width_of(kept + "...") > width) {
    kept.pop_back();
    while (!kept.empty() && (static_cast<unsigned char>(kept.back()) & 0xC0) == 0x80) kept.pop_back();  // the rest of a character
    if (!kept.empty() && static_cast<unsigned char>(kept.back()) >= 0xC0) kept.pop_back();
  }
  return kept + "...";
}

Rect field_in(const Rect& place) {
  return {place.left + room_left, place.top + room_above, place.width - room_left - room_right, place.height - room_above - room_below};
}

void title(canvas::Canvas& paper, const Rect& place, std::string_view words) { paper.text({place.left, place.top + 3.5}, words, {3.5, canvas::Anchor::left, false}); }

void rule_y(canvas::Canvas& paper, const Frame& frame, std::string_view unit) {
  for (const double tick : frame.y.ticks) {
    const double y = frame.at_y(tick);
    paper.polyline({{frame.field.left, y}, {frame.field.right(), y}}, tick == 0 ? outline / 2 : grid_line);
    write(paper, {frame.field.left - 1.5, y + lettering / 2}, shown_tick(frame.y, tick), canvas::Anchor::right);
  }
  write(paper, {frame.field.left - 1.5, frame.field.top - 3}, unit, canvas::Anchor::right);
  paper.polyline({{frame.field.left, frame.field.top}, {frame.field.right(), frame.field.top}, {frame.field.right(), frame.field.bottom()}, {frame.field.left, frame.field.bottom()}},
                 outline, canvas::Pattern::solid, true);
}

void rule_x(canvas::Canvas& paper, const Frame& frame, std::string_view words) {
  for (const double tick : frame.x.ticks) {
    const double x = frame.at_x(tick);
    paper.polyline({{x, frame.field.top}, {x, frame.field.bottom()}}, grid_line);
    write(paper, {x, frame.field.bottom() + lettering + 1.5}, shown_tick(frame.x, tick), canvas::Anchor::middle);
  }
  write(paper, {frame.field.right(), frame.field.bottom() + 2 * lettering + 4}, words, canvas::Anchor::right);
}

std::vector<double> step_bounds(const working::Course& course, Along along) {
  const std::size_t steps = course.steps.size();
  std::vector<double> bounds{0};
  if (along == Along::time && course.lasts.size() == steps) {
    const double all = std::accumulate(course.lasts.begin(), course.lasts.end(), 0.0);
    for (const double lasts : course.lasts) bounds.push_back(bounds.back() + lasts / all);
  } else {
    for (std::size_t i = 1; i <= steps; ++i) bounds.push_back(static_cast<double>(i) / static_cast<double>(steps));
  }
  bounds.back() = 1;
  return bounds;
}

void rule_steps(canvas::Canvas& paper, const Rect& field, const working::Course& course, Along along) {
  const std::vector<double> bounds = step_bounds(course, along);
  for (std::size_t i = 0; i < bounds.size(); ++i) {
    const double x = field.left + bounds[i] * field.width;
    paper.polyline({{x, field.top}, {x, field.bottom()}}, grid_line);
    if (i + 1 == bounds.size()) break;
    const std::string number = std::to_string(i + 1);
    const double room = (bounds[i + 1] - bounds[i]) * field.width;
    if (room > width_of(number) + 1) write(paper, {x + room / 2, field.top - 1.2}, number, canvas::Anchor::middle);
  }
}

}  // namespace ferrule::plots
