// Position rows of directional valves: `position a P>A B>T by solenoid 1Y1`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/language/reading.hpp"
#include "compiler/model/definition.hpp"

namespace ferrule {

// A position row behind its word: name, paths, what shifts it. None when it has no name.
std::optional<PositionRow> read_position(Reading& reading, Cursor& cursor);
// Paths, words and what shifts it, to the end of the item: more of a row that is begun.
void read_more_of_position(Reading& reading, Cursor& cursor, PositionRow& row);
// `by solenoid 1Y1 and detent`, behind `by`.
void read_actuations(Reading& reading, Cursor& cursor, std::vector<Actuation>& into);
// One path as `P>A`, `P-A-T`, `A|>T`; none (and nothing taken) when no path stands here.
std::optional<RowPath> take_path(Cursor& cursor);
// The path as it is named everywhere: "P>A", "P-A-T".
std::string name_of(const RowPath& path);
// Puts the row in the place of its namesake, else at the end.
void place_row(std::vector<PositionRow>& rows, PositionRow row);

}  // namespace ferrule
