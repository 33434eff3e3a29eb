#include "checks/sizing/working.hpp"

#include <limits>

namespace ferrule::sizing {

Working& Working::given(std::string_view symbol, std::string_view meaning, Quantity value, std::string origin) {
  working::Value line;
  line.symbol = symbol, line.meaning = meaning, line.dimension = value.dimension, line.si = value.si, line.origin = std::move(origin);
  worked_.values.push_back(std::move(line));
  return *this;
}

Working& Working::law(std::string_view symbol, std::string_view meaning, Dimension dimension, std::string_view formula, std::string_view source) {
  working::Value line;
  line.symbol = symbol, line.meaning = meaning, line.dimension = dimension, line.formula = formula, line.source = source;
  line.si = working::by_formula(worked_, line);
  if (!line.si) line.why_none = "it comes to no number";
  worked_.values.push_back(std::move(line));
  return *this;
}

Working& Working::note(std::string text) {
  worked_.notes.push_back(std::move(text));
  return *this;
}

double Working::operator[](std::string_view symbol) const {
  for (const working::Value& line : worked_.values)
    if (line.symbol == symbol && line.si) return *line.si;
  return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace ferrule::sizing
