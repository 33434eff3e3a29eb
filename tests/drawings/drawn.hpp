// A text compiled with the library of the source tree, and drawn. Every drawing is read back and compared with its text.
#pragma once

#include <memory>
#include <string>

#include "render/draw.hpp"

namespace drawn {

std::unique_ptr<ferrule::Compilation> compiled(const std::string& circuit, const std::string& name = "circuit");
// Fails the running test when a geometry breaks its schema, by the validator of the Debian package python3-jsonschema.
void check_schema(const std::string& geometry);
// Fails the running test when the sheet says something else than the text; every drawing of this file went through it.
void check_read_back(const ferrule::Compilation& made, const ferrule::Drawing& drawing);
ferrule::Drawing text(const std::string& circuit, const std::string& name = "circuit", const ferrule::SheetWish& wish = {});
// A file of the source tree: "samples/bale-squeezer.fer".
ferrule::Drawing file(const std::string& path, const ferrule::SheetWish& wish = {});
std::string read(const std::string& path);

}  // namespace drawn
