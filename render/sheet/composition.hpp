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
  std::string caution;
  std::optional<CycleTable> cycle;
  std::string rest_note;
  LineTypes lines;
  std::optional<Panel> state;          // legend of a sheet that shows a state, in place of the line types
  std::optional<Panel> findings;       // numbers and sentences of what is marked
};

struct Composition {
  Format format;
  Point circuit_at;                    // to be added to the circuit's coordinates
  Rect area;                           // drawing space
  Inks furniture;                      // frame, caution, tables, notes; the title block stands under the caution
};

// On that format; nothing when circuit, tables and notes do not find room on it.
std::optional<Composition> composed_on(const Contents& contents, const Format& format);

// For what no format holds, on a sheet of its own size: a screen and a roll can show it.
Composition composed_apart(const Contents& contents);

// Frame, caution and title block alone, and the space they leave, less a margin: for lists.
struct EmptySheet {
  Inks furniture;
  Rect area, free;
};
EmptySheet empty_sheet(const Format& format, const std::string& caution);

// Width and height of everything that is drawn, mm.
Rect extent_of(const std::vector<Rect>& boxes);

}  // namespace ferrule::sheet
