// From circuit to drawing: what the library shows, where layout puts it, on the sheet that fits.
#pragma once

#include "compiler/compile.hpp"
#include "render/drawing.hpp"
#include "render/state_view.hpp"

namespace ferrule {

// The sheet of a compiled circuit. `source` is the name of the text without folder and ending ("bale-squeezer").
// Never fails: what can't be drawn as asked is told in `notes`.
// With a view, in that state: valves shifted, lines by their condition, arrows, pressures and flows, a legend.
Drawing draw(const Compilation& compilation, const std::string& source, const StateView* view = nullptr);

// The bytes of a file: ".pdf", ".svg", ".png" or ".json" by `ending`.
struct DrawnFile {
  std::string bytes;
  std::string error;   // for people: why there are none; empty when there are
};
DrawnFile file_of(const Drawing& drawing, std::string_view ending, long source_date_epoch = 0, double dots_per_inch = 200);

// Every symbol and every valve row of the library with its name and ports, on A3 sheets, as a ".pdf", ".svg" or ".png".
DrawnFile symbols_file(Library& library, std::string_view ending, long source_date_epoch = 0);

}  // namespace ferrule
