// What the canvas module hands to the program. Cairo and Pango bring forty libraries along; a command that draws nothing
// must not wait for them, so they come with a module of its own that is loaded when something is drawn or measured first.
#pragma once

#include "render/canvas/canvas.hpp"

namespace ferrule::canvas {

// The functions of canvas.hpp, by name.
struct Functions {
  std::unique_ptr<Canvas> (*new_canvas)(Format, const DocumentData&);
  std::string (*why_no_canvas)();
  TextSize (*measured)(std::string_view, double);
  std::string (*lacking)(std::string_view);
  std::string (*font_file)();
};

}  // namespace ferrule::canvas

// The one symbol that is looked up in the module.
extern "C" const ferrule::canvas::Functions* ferrule_canvas_functions();
