// Hints of the text that a drawing does not obey, said with the reason and the place of every hint it names.
#pragma once

#include "render/drawing.hpp"
#include "render/sketch.hpp"

namespace ferrule {

// Adds a sentence to the notes for each of
// what layout was never asked for,
void note_unasked(const Compilation& compilation, const Sketch& sketch, std::vector<std::string>& notes);
// what layout refused on the sheet that is drawn from this sketch,
void note_refusals(const Compilation& compilation, const Sketch& sketch, const std::vector<layout::Refusal>& refusals, std::vector<std::string>& notes);
// what the sheets are against: a part wanted on another one, parts told to stand beside each other that stand on two.
void note_sheets(const Compilation& compilation, const Sketch& sketch, const std::vector<DrawnSheet>& sheets, std::vector<std::string>& notes);

}  // namespace ferrule
