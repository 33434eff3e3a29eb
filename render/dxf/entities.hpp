// Ink as entities of DXF. Internal to render/dxf.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "render/sheet/ink.hpp"

namespace ferrule::dxf {

// Group code and value, a line each.
std::string group(int code, std::string_view value);
std::string group(int code, int value);
std::string group(int code, double value);   // mm or degrees, three decimals

// Line types with gaps, with their names in the file.
struct LineType {
  std::string_view name;
  sheet::Pattern pattern;
};
extern const std::array<LineType, 8> line_types;

// One entity, of text style `lettering`; a filled shape of more than four corners comes as its outline. y is counted from the bottom
// of a sheet that is `height` mm high.
std::string entity(const sheet::Ink& ink, std::string_view layer, double height);

// Letters as DXF writes them: \U+XXXX outside ASCII, nothing that acts as a control code, at most 250 characters.
std::string text_value(std::string_view words);

inline constexpr std::string_view lettering = "LETTERING";

}  // namespace ferrule::dxf
