// Paper that a school prints on, and where on it something may stand.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "render/sheet/ink.hpp"

namespace ferrule::pages {

// Sizes of ISO 216 and ANSI/ASME Y14.1. A wide page lies, twice as large, to be folded once: A3, or 11 x 17 in.
struct Paper {
  std::string_view name;                 // "a4", "letter"
  double width = 0, height = 0;          // mm, standing
  double wide_width = 0, wide_height = 0;
};
std::span<const Paper> papers();
std::optional<Paper> paper_named(std::string_view name);

// What is left for blocks: 20 mm at the left for the punch, 10 mm on the other sides, a row at the head for the title and one
// at the foot for the number of the page.
sheet::Rect room_on(const Paper& paper, bool wide);

}  // namespace ferrule::pages
