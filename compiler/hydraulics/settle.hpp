// Solves a network block by block, and leaves out what cannot carry any flow.
#pragma once

#include "compiler/hydraulics/memory.hpp"
#include "compiler/hydraulics/network.hpp"

namespace ferrule::hydraulics {

// From rest: everything at tank pressure and still. Of several solutions this start finds the moving one.
// `memory` keeps the small blocks of a circuit from one state to the next.
Solution settle(const Network& network, Memory& memory);

}  // namespace ferrule::hydraulics
