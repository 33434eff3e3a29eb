// A drawing on more than one sheet: cover, circuit sheets with paired references, work cycle, parts list.
#pragma once

#include <functional>
#include <span>

#include "render/composing.hpp"

namespace ferrule::set {

struct SetWish {
  std::span<const sheet::Format> formats;   // from small to large, of which the circuit sheets take one
  sheet::TitleData title;                   // of every sheet, but for its number and supplement
};

// What was refused of the hints of a sheet: layout's, with the sketch of that sheet.
using Refused = std::function<void(const Sketch& sketch, const std::vector<layout::Refusal>& refusals)>;

// Appends the sheets to `drawing`: from several formats the smallest from A3 on is taken that holds the supply and every branch
// whole. What even parted does not fit stands on a larger sheet, and is told in the notes.
void add_set(Drawing& drawing, const Making& making, const Sketch& sketch, const SetWish& wish, const Refused& refused);

}  // namespace ferrule::set
