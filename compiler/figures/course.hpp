// What a cycle looks like over its steps, as plain series: for diagrams, which know no circuit.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "compiler/figures/book.hpp"

namespace ferrule::working {

// Where an actuator stands at the beginning of every step and at the end of the last, from its rearmost place on.
struct Lane {
  std::string tag;
  bool turns = false;                      // a motor: `at` is by step, 1 while it turns
  bool rotates = false;                    // its stroke is an angle
  double stroke = 0;                       // m or rad, of what the cycle uses of it
  std::vector<std::optional<double>> at;   // none after a motion that has no travel
};

// One value for every step; none where the step has no numbers.
struct Trace {
  std::string name;
  std::vector<std::optional<double>> by_step;  // SI
};

struct Course {
  std::vector<std::string> steps;
  std::vector<double> lasts;               // s, by step; empty when a time is missing
  std::string why_no_time;
  std::vector<Lane> lanes;
  std::vector<Trace> pressures, flows;     // of every pump, at its outlet
  std::vector<Trace> powers;               // shafts, work, heat
};
// The pumps of a circuit, in the order of the text.
std::vector<Subject> pumps_of(const Book& book);
// Pa where the pump delivers to in a state; NaN where the oil there is shut in, or it delivers to nothing.
double outlet_pressure(const Book& book, const Subject& pump, std::size_t state);

// Without a cycle there are no steps.
Course course_of(const Book& book);

// A pump's delivery over its outlet pressure, and where the states stand on it (laws of compiler/hydraulics/pump.cpp).
struct PumpChart {
  std::string tag;
  std::vector<std::pair<double, double>> curve;  // Pa, m3/s
  struct Stand { std::string state; double pressure = 0, flow = 0; };
  std::vector<Stand> stands;               // of the told states that settle while it runs
};
std::vector<PumpChart> pump_charts(const Book& book);

// Where the heat comes from, the greatest first; what is below 0.5 % of all stands together as "others".
struct HeatBars {
  std::string basis;                       // "mean over the cycle", "in squeeze"
  std::vector<std::pair<std::string, double>> bars;  // place, W
};
// Over the cycle when its time is known, else of the told state with the most heat.
HeatBars heat_bars(const Book& book);

}  // namespace ferrule::working
