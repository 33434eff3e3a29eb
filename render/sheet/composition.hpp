// Which format, and where circuit, title block, tables and notes stand on it.
//
// Quarters: supply bottom left, actuators along the top, title block bottom right; tables take the free quarter, above the title
// block when the supply ends left of it, else top right. The eye finds the same thing in the same place on every sheet.
#pragma once

#include <optional>

#include "render/sheet/format.hpp"
#include "render/sheet/tables.hpp"

namespace ferrule::sheet {

struct Contents {
  std::vector<Rect> circuit;           // boxes of everything drawn, in the circuit's own coordinates, mm
  TitleData title;
  std::string caution;
  std::optional<CycleTable> cycle;
  std::string rest_note;
  LineTypes lines;
  std::optional<Panel> state;          // legend of a sheet that shows a state, in place of the line types
  std::string wanted;                  // "A3"; "" when the content chooses
};

struct Composition {
  Format format;
  Point circuit_at;                    // to be added to the circuit's coordinates
  Rect area;                           // drawing space
  Inks furniture;                      // frame, title block, caution, tables, notes
  std::vector<std::string> notes;      // what did not fit, for people
};

Composition composed(const Contents& contents);

}  // namespace ferrule::sheet
