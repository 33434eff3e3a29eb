// What can be wrong with a text as text, and the words for it. Codes T-01 to T-39; compiler/language has the rest.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "grammar/message.hpp"

namespace ferrule {

enum class FaultKind : std::uint8_t {
  none,
  // The whole file is refused.
  not_text, not_utf8, file_too_big, nested_too_deep,
  // Braces.
  block_not_closed, brace_closes_nothing, brace_missing,
  // Characters.
  text_not_closed, curly_quotes, single_quotes, long_dash, decimal_comma, inch_mark, hidden_character, direction_character,
  foreign_letter, unknown_sign, comma_outside_braces, nothing_between_commas, too_many_faults, too_long,
};

struct Fault {
  FaultKind kind = FaultKind::none;
  Span at;
  Span shown_by;  // second place; empty when there is none
};

// Whether what was written can be read without doubt, so that the statement stays whole.
bool readable(FaultKind kind);

Message message_of(const Fault& fault, const Sources& sources);

// What `ferrule explain` says of each, by code.
struct FaultPage {
  std::string_view code, rule, why, write;
  Severity severity = Severity::error;
};
std::vector<FaultPage> fault_pages();

}  // namespace ferrule
