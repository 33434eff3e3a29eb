// A text as a row of tokens: what the rules of rules.hpp recognise, in order, blanks left out.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "grammar/faults.hpp"

namespace ferrule {

enum class TokenKind : std::uint8_t {
  word, number, text, date, dash, sign, strange,   // become terms
  opening_brace, closing_brace, comma, line_end, comment,
};

struct Token {
  TokenKind kind = TokenKind::strange;
  FaultKind fault = FaultKind::none;   // what is wrong with its spelling
  bool first_on_line = false;
  bool space_before = false;
  std::uint32_t begin = 0, end = 0;
};

// All of `text`, which must be UTF-8 without NUL. Linear in time; never fails. Ends with a line end.
std::vector<Token> tokens_of(std::string_view text);

}  // namespace ferrule
