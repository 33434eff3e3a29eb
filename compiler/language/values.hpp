// Values with units, and formulas of them: `12 bar`, `1 1/4 in`, `0 to 250 bar`, `outside - 2 * wall`, `min (a and b)`.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "compiler/language/reading.hpp"

namespace ferrule {

// What a value is for, in words: "`rated`", "the travel". Stands in messages.
using Purpose = std::string_view;

// A value (number with unit, name, formula) of the expected dimension; none when a message was given or its value is
// unknown. Takes from the cursor what it read; after a fault the rest of the item is skipped.
// `abs` after a pressure makes it absolute: the result is gauge by the standard atmosphere, 101 325 Pa (ISO 2533).
std::optional<Quantity> read_quantity(Reading& reading, Cursor& cursor, Dimension expected, Purpose purpose);

// A value of any dimension.
std::optional<Quantity> read_any_quantity(Reading& reading, Cursor& cursor, Purpose purpose);

// Values joined by a word ("to", "x", "and"): a unit at the end serves those before it. At least one.
std::optional<std::vector<Quantity>> read_quantities(Reading& reading, Cursor& cursor, std::string_view joiner,
                                                     Dimension expected, Purpose purpose);

// The number a term stands for; none when it is no number or not finite (`1e400`, `1/0`).
std::optional<double> finite_number_of(const Term& term);

// A formula of a definition, with the words of `names`. Faults are reported at the formula.
std::optional<Quantity> evaluate(Reading& reading, const Formula& formula, Names& names, Dimension expected, Purpose purpose);
std::optional<Quantity> evaluate_any(Reading& reading, const Formula& formula, Names& names, Purpose purpose);

// The terms of `cursor` up to where a value ends (operators and parentheses belong to it), unread.
Formula take_formula(Cursor& cursor);

// "a pressure, as `160 bar`"
std::string wanted(Dimension dimension);

}  // namespace ferrule
