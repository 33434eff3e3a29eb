// A sheet for those who go on in mechanical CAD: DXF as of release 12 (AC1009), which every reader of the format takes.
//
// One unit is one millimetre, the origin is the lower left corner of the trimmed sheet. Letters outside ASCII stand as \U+XXXX.
// Groups and tables by the publisher's reference of the format, from memory.
#pragma once

#include <string>

#include "render/drawing.hpp"

namespace ferrule {

// The circuit at rest; states and findings are for paper.
std::string dxf_of(const DrawnSheet& page, const Drawing& drawing);

}  // namespace ferrule
