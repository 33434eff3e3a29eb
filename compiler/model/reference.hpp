// The reference of the language's kinds and elements, made from their definitions: `ferrule list` and LANGUAGE.md print it,
// so that nobody guesses a word and no page can fall behind the library.
#pragma once

#include <string>

#include "compiler/library/library.hpp"

namespace ferrule {

// All kinds, a line each with what they are, under headings by where they stand on the sheet.
std::string list_of_kinds(Library& library);

// One kind: ports, facts with type, limits, default and source, positions, sizes, what is enough. "" when there is none.
std::string reference_of_kind(Library& library, std::string_view name);

// All physical elements: word, ends, law, parameters, flags.
std::string reference_of_elements();

// The words after `by` in a position row, with what they mean.
std::string reference_of_operators(Library& library);

// How a fact is typed, for people: "pressure at flow, from 1 bar to 700 bar, default 8 bar (common practice)".
std::string type_of(const FactSpec& fact);

}  // namespace ferrule
