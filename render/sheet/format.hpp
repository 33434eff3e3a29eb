// Sheet sizes and frame of ISO 5457: borders, centring marks, grid references. Numbers from memory of the 1999 edition.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "render/sheet/ink.hpp"

namespace ferrule::sheet {

struct Format {
  std::string name;            // "A3"; "special" when no ISO format is large enough
  double width = 0, height = 0;  // trimmed, mm
};

// A4 (stands), A3, A2, A1, A0 (lie), from small to large.
std::span<const Format> formats();
std::optional<Format> format_named(std::string_view name);

// Inside of the frame line: 20 mm at the left for filing, 10 mm on the other sides.
Rect drawing_space(const Format& format);

// Frame 0.7 mm, reference band of 5 mm with fields of 50 mm counted from the centring marks, letters without I and O,
// size mark at the bottom right. On A4 the references stand at the top and right only.
Inks frame(const Format& format);

// The field of the reference band in which a point of the sheet lies, letter first: "C4". What is left of the first cut is in
// the first field, what is beyond the last in the last.
std::string field_at(const Format& format, Point at);

}  // namespace ferrule::sheet
