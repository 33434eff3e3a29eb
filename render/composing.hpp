// One sheet from one sketch: laid out, placed, and stood on the smallest of some formats that holds it. Internal to render.
#pragma once

#include <optional>
#include <span>

#include "render/drawing.hpp"
#include "render/sheet/composition.hpp"
#include "render/sketch.hpp"

namespace ferrule {

// What all sheets of one drawing are made from.
struct Making {
  const Circuit& circuit;
  Library& library;
  const Drawing& drawing;              // scale and line types
  const StateView* view;               // null for sheets as usual
  bool with_cycle = true;              // the table of the work cycle stands on the sheet; in a set it has pages of its own
};

// Everything but the title block, which counts the sheets and is therefore drawn last.
struct Composed {
  DrawnSheet page;
  sheet::Rect size;                    // what the circuit takes, mm
  std::vector<std::string> notes;      // for people: what could not be done as asked
  std::vector<layout::Refusal> refusals;
};

// From much air between the lines to little; a large circuit only as is usual.
std::vector<layout::Distances> spacings_of(const Sketch& sketch);

// The smallest of the formats that holds it at one of the spacings, and there the first of these; nothing when none does.
// Formats go from small to large.
std::optional<Composed> composed(const Making& making, const Sketch& sketch, std::span<const layout::Distances> spacings,
                                 std::span<const sheet::Format> formats);

struct Room {
  double width = 0, height = 0;        // mm
};
// The circuit alone, without frame and tables, on a sheet of its own size: the first of the rooms that holds it at one of the
// spacings, and there the first of these; nothing when none does.
std::optional<Composed> composed_alone(const Making& making, const Sketch& sketch, std::span<const layout::Distances> spacings,
                                       std::span<const Room> rooms);

// On a sheet of its own size.
Composed composed_apart(const Making& making, const Sketch& sketch);

}  // namespace ferrule
