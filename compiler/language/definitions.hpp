// Readers of the statements that make components: `define`, `symbol`, `part`.
#pragma once

#include "compiler/language/reading.hpp"
#include "compiler/library/library.hpp"

namespace ferrule {

// Each begins behind the statement word. What cannot be read is reported and left out; the rest still stands.
Definition read_definition(Reading& reading, Cursor cursor, Library& library);
Symbol read_symbol(Reading& reading, Cursor cursor);
StrokePart read_stroke_part(Reading& reading, Cursor cursor);

}  // namespace ferrule
