// How tidy finished lines are, to choose between layouts.
#pragma once

#include "render/layout/layout.hpp"

namespace ferrule::layout {

int crossings_of(const Layout& layout);   // places where lines of two nets cross
int bends_of(const Layout& layout);       // corners of paths, tees left out

}  // namespace ferrule::layout
