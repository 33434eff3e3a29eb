// The reference of the language's kinds, elements, units and results, made from the tables and definitions that the program
// itself reads: `ferrule list` prints it and grammar/LANGUAGE.md holds it, so no page can fall behind the library.
#pragma once

#include <string>

#include "compiler/library/library.hpp"

namespace ferrule {

// ---------------------------------------------------------------- for a terminal

// All kinds, a line each with what they are, under headings by the file of the library that defines them.
std::string list_of_kinds(Library& library, const Sources& sources);

// One kind: ports, facts with type, limits, default and source, positions, sizes, what is enough. "" when there is none.
std::string reference_of_kind(Library& library, std::string_view name);

// All physical elements: word, ends, law, parameters, flags.
std::string reference_of_elements();

// The words after `by` in a position row, with what they mean.
std::string reference_of_operators(Library& library);

// The units by dimension, each dimension with an example of a value, and the spellings that are read as well.
std::string list_of_units();

// The results that `require` and `ask` may name, with their dimension.
std::string list_of_results();

// ---------------------------------------------------------------- for grammar/LANGUAGE.md

// The page with what stands between `<!-- generated NAME -->` and `<!-- end NAME -->` made anew, as Markdown. NAME is kinds,
// elements, operators, units, results or statements; other marks are left alone.
std::string page_renewed(std::string_view page, Library& library, const Sources& sources);

}  // namespace ferrule
