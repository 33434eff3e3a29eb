// The mark at the end of a line that goes on on another sheet: a flag with the line's letters, pointed the way the oil runs, and
// beyond it the partner's sheet and field.
//
// Interrupted lines with sheet and field at both ends: practice of ISO 1219-2; the form of the mark is our own.
#pragma once

#include "render/drawing.hpp"
#include "render/symbols/figure.hpp"

namespace ferrule::set {

inline constexpr std::string_view mark_kind = "xref", mark_port = "1";

// Origin in its port. `side` is the way its line leaves: above or below. `text_width` in modules is kept free for its words.
symbols::Figure mark_figure(Side side, bool to, double text_width);

// "to 2/C4", "from 1/B7".
std::string words_of(const DrawnReference& reference);

// Letters and words of a mark whose partner is known.
void letter(DrawnSheet& page, const DrawnReference& reference, Side side, const Drawing& drawing);

}  // namespace ferrule::set
