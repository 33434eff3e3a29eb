// What a body does in one state: moves, stands, hangs on its oil; and against what.
#pragma once

#include <optional>

#include "compiler/hydraulics/bodies.hpp"

namespace ferrule::hydraulics {

// The body's law in this state; none where it is locked on a stop or on the work.
//
// With a cycle a body moves in the steps that say so. Without one it moves in work states and stands in all others. What
// stands under a load of fixed sense hangs on its oil, and its friction is left out (unfavourable side).
std::optional<Body> motion_of(const State& state, const MovingBody& body);

}  // namespace ferrule::hydraulics
