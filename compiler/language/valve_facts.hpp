// What only valves state: rows of positions, what shifts them, rest. Only files of compiler/language include this.
#pragma once

#include "compiler/language/facts.hpp"

namespace ferrule {

// `a by solenoid 1Y1`, `by push-button`, `rest a`, `position a ...`. True when the item is one of these, and read.
bool read_valve_item(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into);

}  // namespace ferrule
