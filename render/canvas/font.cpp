// Where the lettering comes from: the installed copy beside the program's data, else the Debian package.
#include <filesystem>

#include "render/canvas/canvas.hpp"

namespace ferrule::canvas {

std::string font_file() {
  std::error_code unused;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", unused);
  const std::filesystem::path places[] = {program.parent_path() / "../share/ferrule/fonts/osifont.ttf",
                                          "/usr/share/fonts/truetype/osifont/osifont.ttf"};
  for (const auto& place : places)
    if (std::filesystem::is_regular_file(place, unused)) return place.lexically_normal().string();
  return {};
}

}  // namespace ferrule::canvas
