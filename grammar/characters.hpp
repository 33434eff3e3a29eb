// What the bytes of a text are, before it is read as a language.
#pragma once

#include <cstddef>
#include <string_view>

namespace ferrule {

// Where `text` stops being UTF-8 (RFC 3629: no overlong forms, no surrogates); its size when it does not.
std::size_t first_byte_that_is_not_utf8(std::string_view text);

// The first invisible character of a comment, or of a text (where joiners of scripts are welcome); empty when there is none.
std::string_view first_hidden_in(std::string_view part, bool in_text);

}  // namespace ferrule
