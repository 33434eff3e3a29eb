// A result with its working, from which every table, report, requirement, explanation and worksheet is made.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/quantities/quantity.hpp"

namespace ferrule::working {

// One line of a working: a number, and how it came about.
struct Value {
  std::string symbol;         // in the trade's letters: "p_A"
  std::string meaning;        // "pressure at 1A1.A"
  Dimension dimension;
  std::optional<double> si;   // none: see why_none
  std::string why_none;
  std::string formula;        // "q / A", of symbols that stand in earlier lines; empty for what is not worked out here
  std::string origin;         // "given", "default (textbook value)", "balance of the circuit", "sum"; empty with a formula
  std::string source;         // where the law stands: a standard, a text; may be empty
};

// One piece of the balance of pressures along the way of the oil.
struct Loss {
  std::string place;          // "hose DN 12 from 1V1.A to 1A1.A"
  double pascal = 0;          // what it takes off
};
struct Way {
  std::string begins, ends;   // "0P1.P", "1A1.A"
  double from = 0, to = 0;    // Pa
  std::vector<Loss> losses;   // in the order of the flow
};

// A result. `values` are in the order in which they are worked out; the last one is the result itself.
struct Worked {
  std::string address;        // "1A1.force"
  std::string what;           // "force": a word of result_words()
  std::string state;          // "press"; empty for what belongs to the whole cycle
  std::vector<Value> values;
  std::vector<Way> ways;
  std::vector<std::string> notes;

  const Value& result() const { return values.back(); }
};

// The value of a line's formula, from the lines before it; none when it comes to no number.
std::optional<double> by_formula(const Worked& worked, const Value& value);

// For people: value and unit, or "none".
std::string shown(const Value& value);

}  // namespace ferrule::working
