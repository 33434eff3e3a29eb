// Diagrams of a cycle on a canvas: plain series in, ink out. Each paints into a rectangle of the sheet and nothing beside it.
//
// Lines differ by pattern and are named where they run or in a key, so that a copy in black and white reads the same.
#pragma once

#include "compiler/figures/course.hpp"
#include "render/canvas/canvas.hpp"

namespace ferrule::plots {

struct Rect {
  double left = 0, top = 0, width = 0, height = 0;  // mm
  double right() const { return left + width; }
  double bottom() const { return top + height; }
};

inline constexpr double lettering = 2.5;            // mm, capitals

enum class Along : std::uint8_t { steps, time };
enum class Titled : std::uint8_t { yes, no };       // no: a page has a heading of its own

// Displacement of every actuator over the steps, all columns equal, or over time. Numbers of the steps stand above; what
// they are called stands in steps_key.
double displacement_height(const working::Course& course, Titled titled = Titled::yes);
void displacement_diagram(canvas::Canvas& paper, const Rect& place, const working::Course& course, Along along, Titled titled = Titled::yes);

// "1 squeeze   2 press ...", in as many lines as it takes; returns the height.
double steps_key(canvas::Canvas& paper, canvas::Point corner, double width, const working::Course& course);

// Values that hold for a step each: `unit` is one of the trade ("bar", "L/min", "kW").
void trace_diagram(canvas::Canvas& paper, const Rect& place, const std::string& title, std::string_view unit,
                   const std::vector<working::Trace>& traces, const working::Course& course);

// Delivery over pressure, with the states as numbered points and their names beside.
void pump_diagram(canvas::Canvas& paper, const Rect& place, const working::PumpChart& chart);

// A bar for every place that heats the oil.
double heat_height(const working::HeatBars& bars);
void heat_diagram(canvas::Canvas& paper, const Rect& place, const working::HeatBars& bars);

}  // namespace ferrule::plots
