// The work cycle as a table, the rest note and the cautions of a sheet.
#pragma once

#include <optional>
#include <string>

#include "compiler/model/circuit.hpp"
#include "render/sheet/tables.hpp"

namespace ferrule {

// Steps x solenoids and levers; none when the text has no cycle.
std::optional<sheet::CycleTable> cycle_table(const Circuit& circuit);

// "Drawn at rest: drives off, no valve actuated, accumulators empty."
std::string rest_note(const Circuit& circuit);

// Fixed sentences chosen by what the circuit holds. They can't be switched off.
std::string caution(const Circuit& circuit);

}  // namespace ferrule
