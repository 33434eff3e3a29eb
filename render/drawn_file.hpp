// Ink to bytes of a file, by its ending.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "render/canvas/canvas.hpp"

namespace ferrule {

struct DrawnFile {
  std::string bytes;
  std::string error;   // for people: why there are none; empty when there are
  std::string sheet;   // its number, when the sheets of a set have files of their own
};

// The bytes of whatever `painted` puts on a canvas of that kind: ".pdf", ".svg" or ".png".
DrawnFile on_canvas(std::string_view ending, const canvas::DocumentData& data, const std::function<void(canvas::Canvas&)>& painted);

}  // namespace ferrule
