// The one printer of what came from a text: every name, sentence and source line that reaches a terminal goes through here.
//
// A circuit may come from a stranger. Terminal escapes, characters that turn the reading direction and invisible ones are
// shown as <U+202E>; what a continuous-integration log would take for a command is broken up.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace ferrule {

struct Letter {
  char32_t code = 0;
  std::uint8_t bytes = 1;
  bool bad = false;  // this byte is no UTF-8
};
// The code point at byte `at` (< text.size()).
Letter letter_at(std::string_view text, std::size_t at);

// How one code point is shown: itself, a blank for a tab, or <U+...>.
std::string shown_letter(std::string_view text, std::size_t at, const Letter& letter);
// Columns a terminal gives it: 0 for combining marks, 2 for wide letters, else 1 (Unicode 15, East Asian Width, the large blocks).
int columns_of(char32_t code);
// Columns of a text as shown.
std::size_t columns_of(std::string_view text);

// A text on one line, safe to print.
std::string safe(std::string_view text);
// A text of many lines, each safe to print and ended.
std::string safe_lines(std::string_view text);
// Whole output: no line may begin with `::` after blanks, and `##[` stands nowhere, because job runners obey both.
std::string without_log_commands(std::string output);

// Breaks at blanks so that no line is wider than `width`; words that are wider stay whole.
std::string wrapped(std::string_view text, std::size_t width, std::string_view indent);

}  // namespace ferrule
