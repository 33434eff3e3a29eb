// Numbers and units that were written without the blank between them.
#include <algorithm>

#include "compiler/quantities/quantity.hpp"

namespace ferrule {

std::string with_blank(std::string_view word) {
  const auto is_figure = [](char c) { return (c >= '0' && c <= '9') || c == '.' || c == '/'; };
  const auto letters = std::find_if_not(word.begin(), word.end(), is_figure);
  const auto figures = static_cast<std::size_t>(letters - word.begin());
  // `1/min` is a unit by itself.
  if (figures == 0 || figures == word.size() || word[figures - 1] == '/' || !unit_named(word.substr(figures))) return {};
  return std::string(word.substr(0, figures)) + " " + std::string(word.substr(figures));
}

}  // namespace ferrule
