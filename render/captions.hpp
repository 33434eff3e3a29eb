// The words of a drawing: what a definition shows of a part, in the trade's units; loads; lines.
#pragma once

#include <string>
#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule {

// Tag's companions, one row each: the description, then the `shows` rows of the definition whose facts the text states or
// implies. A default is never printed as if it were stated. At most four rows of some 22 characters.
// A reservoir tells the grade of its oil.
std::vector<std::string> data_rows(const Circuit& circuit, const Part& part);

// Only the `shows` rows, joined: "16 × 2", "DN 12"; with the tag before it when the text gave one.
std::string line_caption(const Part& line, bool named);

// Only the `shows` rows, joined by commas: "63/36 × 400, 210 bar".
std::string data_line(const Part& part);

// What the definition says that the component does, with what the text states of these parts where they agree, else in
// general words: "keeps P below 160 bar by letting oil go to T", "keeps P below its setting ...". `its` is put before a
// fact that is not filled in; `says` is the definition's sentence or the same in another language.
std::string function_line(std::string_view says, const std::vector<const Part*>& parts, std::string_view its);

// "25 kN", "250 kg": the load on an actuator, from its own facts, else the greatest of the cycle; empty when none is told.
std::string load_caption(const Circuit& circuit, PartId actuator);

// A quantity with the signs of a drawing: "16 cm³/r", "1450 r/min", "10 µm", "60 °C".
std::string on_sheet(const Quantity& quantity);

}  // namespace ferrule
