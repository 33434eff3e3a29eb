#include "render/canvas/canvas.hpp"

#include "render/canvas/lettering.hpp"
#include "render/canvas/surfaces.hpp"

namespace ferrule::canvas {

std::unique_ptr<Canvas> new_canvas(Format format, const DocumentData& data) {
  if (face() == nullptr) return nullptr;
  switch (format) {
    case Format::pdf: return new_pdf(data);
    case Format::png: return new_png(data);
    case Format::svg: return new_svg(data);
  }
  return nullptr;
}

std::string why_no_canvas() {
  if (face() != nullptr) return {};
  const std::string file = font_file();
  if (file.empty())
    return "the lettering face osifont.ttf is missing: install the package fonts-osifont, or put the file into "
           "share/ferrule/fonts beside the program";
  return "the lettering face " + file + " can't be read as a font: install the package fonts-osifont again";
}

}  // namespace ferrule::canvas
