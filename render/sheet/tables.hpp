// What stands beside the circuit: the table of the work cycle, notes, the line types. Every panel has its top left corner in the origin.
#pragma once

#include <string>
#include <vector>

#include "render/sheet/title_block.hpp"

namespace ferrule::sheet {

struct CycleTable {
  std::vector<std::string> signals;    // solenoids, levers: one column each
  struct Row {
    std::string name;
    std::vector<std::string> marks;    // "+", a position's name, or nothing; by signal
    std::string ends;
  };
  std::vector<Row> rows;
};

// Columns as narrow as their words, rows of 7 mm, at most `most_width` mm: what is too long is cut.
Panel cycle_table(const CycleTable& table, double most_width);

// A free text in lines of at most `width` mm.
Panel note(const std::string& text, double width);

// Names of the line types that the sheet shows.
struct LineTypes {
  bool pilot = false, drain = false, chain = false, mechanical = false;
};
Panel legend(const LineTypes& types);

}  // namespace ferrule::sheet
