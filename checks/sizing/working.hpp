// A working written line by line, for sizes that stand in no book of results.
#pragma once

#include <string>
#include <string_view>

#include "compiler/figures/worked.hpp"

namespace ferrule::sizing {

class Working {
 public:
  // "1A1 bore and rod"
  explicit Working(std::string what) { worked_.address = std::move(what); }

  // A number from elsewhere: its origin in words ("balance of the circuit, in squeeze").
  Working& given(std::string_view symbol, std::string_view meaning, Quantity value, std::string origin);
  // A number by formula from the lines before; formulas as in compiler/figures/expression.hpp.
  Working& law(std::string_view symbol, std::string_view meaning, Dimension dimension, std::string_view formula, std::string_view source);
  Working& note(std::string text);

  // SI; NaN where no line has the symbol or the line has no value.
  double operator[](std::string_view symbol) const;
  const working::Worked& worked() const { return worked_; }

 private:
  working::Worked worked_;
};

}  // namespace ferrule::sizing
