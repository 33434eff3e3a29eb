// One cause, one finding: what only restates a graver finding is kept, but told by that one.
#pragma once

#include <string>

#include "grammar/message.hpp"

namespace ferrule {

// "RULE on SUBJECT" of the finding that says it already; empty when none does. A warning masks nothing:
// a relief that is missing only between two positions is there at idle.
std::string mask_of(const Message& message, const Messages& all);

}  // namespace ferrule
