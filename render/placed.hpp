// Sketch and layout together: strokes, lines and words at their places, in millimetres from the layout's own origin.
#pragma once

#include "render/drawing.hpp"
#include "render/sketch.hpp"

namespace ferrule {

DrawnSheet placed(const Sketch& sketch, const layout::Layout& layout, Library& library, double module_mm, double line_mm, double capital_mm);

}  // namespace ferrule
