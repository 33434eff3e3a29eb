// A text compiled with the library of the source tree, and drawn.
#pragma once

#include <memory>
#include <string>

#include "render/draw.hpp"

namespace drawn {

std::unique_ptr<ferrule::Compilation> compiled(const std::string& circuit, const std::string& name = "circuit");
ferrule::Drawing text(const std::string& circuit, const std::string& name = "circuit");
// A file of the source tree: "samples/bale-squeezer.fer".
ferrule::Drawing file(const std::string& path);
std::string read(const std::string& path);

}  // namespace drawn
