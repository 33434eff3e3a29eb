// The words of a drawing at their places: every row of a text is a label of its own.
#pragma once

#include "render/drawing.hpp"
#include "render/sketch.hpp"

namespace ferrule {

std::vector<DrawnLabel> labels_of(const Sketch& sketch, const layout::Layout& layout, double module_mm, double capital_mm);

}  // namespace ferrule
