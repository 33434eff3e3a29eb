// The statements of the work a circuit is there for: cycle, control, require, accept, ask.
#pragma once

#include <span>

#include "compiler/language/reading.hpp"

namespace ferrule {

// Reads them in the order of the text, after all parts and runs of `circuit` stand, and fills work, accepts,
// requirements and questions. Values may use `reading.names`; tags are resolved by part_tagged or split_at_tag.
void read_work(Reading& reading, std::span<const Statement> statements, Circuit& circuit);

}  // namespace ferrule
