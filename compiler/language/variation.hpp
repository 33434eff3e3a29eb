// `vary NAME from VALUE to VALUE by VALUE`: the values that a `let` takes in the variants of a class set.
#pragma once

#include "compiler/language/lets.hpp"

namespace ferrule {

// Into the circuit; a name that no `let` has, a step that is nil or does not reach is reported.
void read_variation(Reading& reading, const Lets& lets, const Statement& statement, Circuit& circuit);

}  // namespace ferrule
