// The value of one fact, as its definition says. Only files of compiler/language include this.
#pragma once

#include "compiler/language/facts.hpp"

namespace ferrule {

// Reads the value behind the fact's word into `fact`; false when a message was given or the value is unknown.
bool read_fact_value(Reading& reading, Cursor& cursor, const FactSpec& spec, FactValue& fact);

// Reports values outside the limits of the definition; false when one is.
bool within_limits(Reading& reading, const FactSpec& spec, const FactValue& fact);

}  // namespace ferrule
