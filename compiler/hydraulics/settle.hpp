// Solves a network block by block, and leaves out what cannot carry any flow.
#pragma once

#include "compiler/hydraulics/network.hpp"

namespace ferrule::hydraulics {

// From rest: everything at tank pressure and still. Of several solutions this start finds the moving one.
Solution settle(const Network& network);

}  // namespace ferrule::hydraulics
