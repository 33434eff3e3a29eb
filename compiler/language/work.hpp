// The statements of the work a circuit is there for: cycle, control, require, accept, ask.
#pragma once

#include <span>

#include "compiler/language/reading.hpp"

namespace ferrule {

// Whether a statement is one of these, by its first words: `cycle`, `require`, `accept`, `ask`, `never`, and control
// rules, which begin with a tag: `1Y3 only with 1Y1`, `0M1 running whenever "start pressed"`, `1V1 lever a whenever ...`.
bool is_work_statement(const Statement& statement);

// Reads them after all parts and runs of `circuit` stand, and fills work, accepts, requirements and questions; the cycle
// first, since the others name its steps. Values may use `reading.names`; tags are resolved by the circuit's tables.
void read_work(Reading& reading, std::span<const Statement> statements, Circuit& circuit);

}  // namespace ferrule
