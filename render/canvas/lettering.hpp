// Lettering in one face: shaped by Pango, found by nobody but us, so that a sheet is the same on every machine.
#pragma once

#include <ft2build.h>
#include FT_FREETYPE_H

#include <string>
#include <string_view>
#include <vector>

namespace ferrule::canvas {

struct Glyph {
  unsigned index = 0;     // in the face
  double x = 0, y = 0;    // of its origin, for capitals of height 1, y down
  int byte = 0;           // where its characters begin in Lettering::words
};

// One line of text for capitals of height 1.
struct Lettering {
  std::string words;      // what is drawn: cleaned, with what the face lacks replaced
  std::vector<Glyph> glyphs;
  double width = 0;
};

// Shaped once per text and kept. Words are cleaned; a character the face lacks is drawn as an empty square.
// Empty when the face can't be read. The reference is good until the next call.
const Lettering& lettering(std::string_view words);

// The face, unscaled, with its size in font units per capital; nullptr when it is missing or can't be read.
FT_Face face();
// Face units of one em, and the height of a capital in them (osifont: 2048, 1510, measured in the file).
double units_per_em();
double units_per_capital();

}  // namespace ferrule::canvas
