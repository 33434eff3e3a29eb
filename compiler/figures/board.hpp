// A working as text, as a teacher writes it on a board.
#pragma once

#include <string>

#include "compiler/figures/worked.hpp"

namespace ferrule::working {

// Formula, numbers put in, result, source of each line; then the balance of pressures along the way.
std::string on_a_board(const Worked& worked);
// Its lines alone, without head and result.
std::string lines_on_a_board(const Worked& worked);
// The formula of a line with the numbers of earlier lines in place of their symbols.
std::string numbers_put_in(const Worked& worked, const Value& value);

// One line of a way: "from 0P1.P 52.1 bar  - L2 (tube 16 x 2 mm) 0.6 bar ... = 1A1.A 48.9 bar" over several lines.
std::string as_text(const Way& way);

}  // namespace ferrule::working
