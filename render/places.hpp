// Where a reader of the file can go: places of a page, links to those of other pages, and bookmarks. Internal to render.
#pragma once

#include "render/drawing.hpp"

namespace ferrule {

// Every sheet and every symbol is a place. From a mark to its partner, from a row of the parts list to the symbol and from a row of
// the index to its sheet runs a link. Bookmarks: sheets, in them findings, supply and branches, in these the components.
void add_places(const DrawnSheet& page, const Drawing& drawing, canvas::Canvas& canvas);

}  // namespace ferrule
