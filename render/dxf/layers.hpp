// What stands on a sheet, by the layer on which a draughtsman would look for it. Internal to render/dxf.
#pragma once

#include <string_view>
#include <vector>

#include "render/drawing.hpp"

namespace ferrule::dxf {

// Name and colour (index 1 to 255 of the colours of DXF; our choice, told apart by name and line type first).
struct Layer {
  std::string_view name;
  int colour;
};
const std::vector<Layer>& layers();

struct Layered {
  std::string_view layer;
  sheet::Ink ink;
};

// Frame with title block, tables and notes; enclosures; symbols; lines by their kind with their dots; texts.
std::vector<Layered> layered(const DrawnSheet& page, const Drawing& drawing);

}  // namespace ferrule::dxf
