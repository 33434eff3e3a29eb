// What the sheets of a set are called, and what their references are.
#pragma once

#include <string>
#include <vector>

#include "render/set/piece.hpp"

namespace ferrule::set {

struct SheetName {
  std::string title;       // "Supply", "Circuits 1 to 3"
  std::string contents;    // "1A1 squeeze, 2A1 eject"
};

SheetName name_of(const Circuit& circuit, const Sketch& sketch, const std::vector<Unit>& units, Range range);

// The letters of nets that go on on another sheet, by their order here: P pressure, T return, S suction, L drain, X pilot,
// W working line; numbered when the set cuts several of a kind.
std::vector<std::string> letters_of(const std::vector<layout::NetKind>& cut);

}  // namespace ferrule::set
