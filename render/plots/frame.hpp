// The frame that diagrams share: title, axes with ticks and units, places of values on the paper.
#pragma once

#include <optional>

#include "render/plots/axis.hpp"
#include "render/plots/diagrams.hpp"

namespace ferrule::plots {

inline constexpr double outline = 0.35, grid_line = 0.13, curve = 0.5;

struct Frame {
  Rect field;       // inside the axes
  Axis x, y;
  double at_x(double value) const { return field.left + x.share(value) * field.width; }
  double at_y(double value) const { return field.bottom() - y.share(value) * field.height; }
};

void write(canvas::Canvas& paper, canvas::Point at, std::string_view words, canvas::Anchor anchor = canvas::Anchor::left);
double width_of(std::string_view words);
// Cuts words to a width, with three dots where something went.
std::string fitted(std::string_view words, double width);

// The field inside `place`, room left for title, tick numbers and the words under the axis.
Rect field_in(const Rect& place);
void title(canvas::Canvas& paper, const Rect& place, std::string_view words);
// Grid, numbers and unit of the y axis; outline of the field.
void rule_y(canvas::Canvas& paper, const Frame& frame, std::string_view unit);
// Grid and numbers of the x axis, its words below.
void rule_x(canvas::Canvas& paper, const Frame& frame, std::string_view words);

// Where every step begins and the last one ends, as shares of the width: equal, or by their times.
std::vector<double> step_bounds(const working::Course& course, Along along);
// Lines at the bounds of the steps, their numbers above the field where they have room.
void rule_steps(canvas::Canvas& paper, const Rect& field, const working::Course& course, Along along);

}  // namespace ferrule::plots
