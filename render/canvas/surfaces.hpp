// The three kinds of paper behind new_canvas.
#pragma once

#include <memory>

#include "render/canvas/canvas.hpp"

namespace ferrule::canvas {

std::unique_ptr<Canvas> new_pdf(const DocumentData& data);
std::unique_ptr<Canvas> new_png(const DocumentData& data);
std::unique_ptr<Canvas> new_svg(const DocumentData& data);

}  // namespace ferrule::canvas
