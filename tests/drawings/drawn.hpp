// A text compiled with the library of the source tree, and drawn.
#pragma once

#include <string>

#include "render/draw.hpp"

namespace drawn {

ferrule::Drawing text(const std::string& circuit, const std::string& name = "circuit");
// A file of the source tree: "samples/bale-squeezer.fer".
ferrule::Drawing file(const std::string& path);
std::string read(const std::string& path);

}  // namespace drawn
