// How the program takes its memory.
#pragma once

namespace ferrule {

// Asks for large pages. A circuit of a thousand components fills some 16 MB in small pieces, and half of the time of a
// check went into the four thousand page faults that come with it. A system without large pages loses nothing.
void take_large_pages();

}  // namespace ferrule
