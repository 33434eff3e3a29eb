// A layout as a plain SVG of boxes, lines and words, for looking at.
#pragma once

#include <string>

#include "render/layout/layout.hpp"

namespace picture {
std::string svg(const ferrule::layout::Problem& problem, const ferrule::layout::Layout& layout);
void write_if_asked(const std::string& name, const ferrule::layout::Problem& problem, const ferrule::layout::Layout& layout);  // FERRULE_PICTURES
}
