// The door of the canvas module.
#include "render/canvas/functions.hpp"

extern "C" const ferrule::canvas::Functions* ferrule_canvas_functions() {
  using namespace ferrule::canvas;
  static constexpr Functions functions{new_canvas, why_no_canvas, measured, lacking, font_file};
  return &functions;
}
