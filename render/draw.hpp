// From circuit to drawing: what the library shows, where layout puts it, on the sheet that fits.
#pragma once

#include "compiler/compile.hpp"
#include "render/composing.hpp"
#include "render/drawing.hpp"
#include "render/drawn_file.hpp"
#include "render/sections/section_page.hpp"
#include "render/state_view.hpp"

namespace ferrule {

struct SheetWish {
  std::string format;            // "A3"; "fit" for what the content needs, whatever the text says; "" as the text says
  bool legible_on_a4 = false;    // no larger than what keeps lettering of 1.8 mm when it is printed on A4
};

// The sheet of a compiled circuit, or a set of sheets when one of the wished format does not hold it. `source` is the name of the
// text without folder and ending ("bale-squeezer").
// Never fails: what can't be drawn as asked is told in `notes`.
// With a view, in that state: valves shifted, lines by their condition, arrows, pressures and flows, a legend.
// With findings, their paths and parts are marked and listed on the sheets they concern.
Drawing draw(const Compilation& compilation, const std::string& source, const StateView* view = nullptr, const SheetWish& wish = {},
             std::vector<FindingMark> findings = {});

// The circuit alone, without frame and tables, for a page that has its own: true size, one sheet as large as the circuit, in
// the first of the rooms that holds it. None when no room does.
std::optional<Drawing> draw_alone(const Compilation& compilation, const std::string& source, const StateView* view, std::span<const Room> rooms);

// ".pdf" and ".json" hold all sheets; ".svg", ".png" and ".dxf" come one a sheet. A ".dxf" shows neither a state nor findings. One file with the error when there is one.
std::vector<DrawnFile> files_of(const Drawing& drawing, std::string_view ending, long source_date_epoch = 0, double dots_per_inch = 200);

// Every symbol and every valve row of the library with its name and ports, on A3 sheets, as a ".pdf", ".svg" or ".png".
DrawnFile symbols_file(Library& library, std::string_view ending, long source_date_epoch = 0);

// A spool valve cut open in its positions, as a ".pdf", ".svg" or ".png".
DrawnFile section_file(const sections::Spool& spool, const Part& valve, const sections::SectionPage& page, std::string_view ending,
                       long source_date_epoch = 0);

}  // namespace ferrule
