// Statements about the circuit as a document: circuit, sheet, fluid, tie, place.
#pragma once

#include "compiler/language/facts.hpp"

namespace ferrule {

void read_circuit(Reading& reading, const Statement& statement, Circuit& circuit);
void read_sheet(Reading& reading, const Statement& statement, Circuit& circuit);
void read_fluid(Reading& reading, const Statement& statement, Circuit& circuit);
void read_tie(Reading& reading, const Statement& statement, Circuit& circuit);    // after all parts stand
void read_place(Reading& reading, const Statement& statement, Circuit& circuit);  // after all parts stand

}  // namespace ferrule
