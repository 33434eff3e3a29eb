// Arithmetic with units over the terms of an item: + - * / parentheses min max sqrt pi, names.
#pragma once

#include <optional>

#include "compiler/language/values.hpp"

namespace ferrule {

struct Operand {
  Quantity quantity;
  Span span;
  bool bare = false;      // a number as written, without unit
  bool computed = false;  // came out of an operation
};

// One value being computed. Each function gives none when a message was given or a name's value is unknown.
struct Calculation {
  Reading& reading;
  Cursor& cursor;
  Names* names;
  Purpose purpose;
  int depth = 0;

  std::optional<Operand> sum();      // product { + - product }

 private:
  std::optional<Operand> product();  // operand { * / operand }
  std::optional<Operand> operand();
  std::optional<Operand> number();
  std::optional<Operand> word();
  std::optional<Operand> in_parentheses();
  std::optional<Operand> function(std::string_view name, Span at);
  std::optional<Operand> added(const Operand& left, const Operand& right, double sign, std::string_view verb);
  std::optional<Operand> extreme(const Operand& left, const Operand& right, bool larger);
  std::optional<Operand> root(const Operand& of, Span at);
  bool same_dimension(const Operand& left, const Operand& right, std::string_view verb);
  std::optional<Unit> unit_behind(std::size_t ahead, std::size_t& words) const;
  std::optional<Unit> take_unit();   // also the unit at the end of a pair: `0 to 250 bar`
};

}  // namespace ferrule
