// Small readings that most statements share.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/language/reading.hpp"

namespace ferrule {

// A name may be a word or a number (`position 0`, port `1`). Empty when neither stands there; then nothing is taken.
std::string take_name(Cursor& cursor);
// A word; when none stands there reports "`after` needs `wanted`" with the example and skips the rest.
std::optional<std::string> want_word(Reading& reading, Cursor& cursor, std::string_view after, std::string_view wanted,
                                     std::string_view example);
std::optional<std::string> want_name(Reading& reading, Cursor& cursor, std::string_view after, std::string_view wanted,
                                     std::string_view example);
std::string take_text(Cursor& cursor);  // "" when no text stands there
// The block of a statement; when none stands there it is reported.
const Block* want_block(Reading& reading, Cursor& cursor, std::string_view statement, std::string_view example);

// "A and B and C": names joined by `and`.
std::vector<std::string> take_names(Cursor& cursor);

std::optional<PortUse> port_use_named(std::string_view word);
bool is_port_name(std::string_view word);  // begins with a capital, or is a number

// "a list of `P`, `T` and `X`"; for messages
std::string all_ports(const Definition& definition);

}  // namespace ferrule
