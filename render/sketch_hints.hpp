// What `place` asks for, as hints of layout. Internal to render/sketch.
#pragma once

#include "render/sketch_parts.hpp"

namespace ferrule {

// Needs the nets of the problem. What layout cannot be asked for is refused with the reason.
void add_hints(const Circuit& circuit, SketchParts& parts);

}  // namespace ferrule
