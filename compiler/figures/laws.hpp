// The table of laws: one row per symbol of a kind of subject. A row either works its value out by its formula from other
// rows of the same kind, or reads it where the circuit or its operating point has it.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "compiler/figures/book.hpp"

namespace ferrule::working {

// What is being worked out.
struct Asked {
  const Book& book;
  const Subject& subject;
  std::size_t state = 0;
  Worked& worked;                       // lines so far; ways and notes may be added
  const Moment& moment() const { return book.moment(state); }
  const Element& element() const { return book.circuit.elements[subject.element]; }
};

struct Law {
  Kind kind;
  std::string_view symbol;
  std::string_view meaning;
  Dimension dimension;
  std::string_view formula;             // "" where `read` gives the value
  std::string_view source;
  void (*read)(const Asked&, Value&) = nullptr;   // fills si or why_none, origin; may change meaning and formula
  bool (*holds)(const Asked&) = nullptr;          // of rows with one symbol the first that holds is taken; null: always
};

// Which symbol answers which word.
struct Answer {
  Kind kind;
  std::string_view what, symbol;
};

std::span<const Law> laws_of_lines();
std::span<const Law> laws_of_pumps();
std::span<const Law> laws_of_actuators();
std::span<const Law> laws_of_valves();
std::span<const Law> laws_of_totals();
std::span<const Answer> answers();

// Works `symbol` and all it needs; the last line of `worked` is then its value. Returns it.
const Value& work_out(const Asked& asked, std::string_view symbol);

// For readers: a fact of the element in this state, with its origin.
void read_fact(const Asked& asked, Value& value, Parameter id, std::optional<double> otherwise = {}, std::string_view source = {});
// The solution has it; NaN and infinity become reasons.
void read_solved(Value& value, double si, std::string_view why_nan);

}  // namespace ferrule::working
