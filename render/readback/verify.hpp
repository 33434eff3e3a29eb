// Does the sheet say what the text says? The net list read from the drawing's geometry against the circuit's own graph.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule::readback {

struct Verdict {
  std::string unreadable;                // why the geometry could not be read; nothing was compared then
  std::vector<std::string> differences;  // one sentence each with sheet, field and millimetres; empty when text and sheet agree
  std::size_t ports = 0, nets = 0;       // compared: ports of the text's symbols, nets of two ports or more
};

// `geometry_json` is a text of the form `schematic-geometry`. Linear in its length but for sorting.
Verdict verify(const Circuit& circuit, std::string_view geometry_json);

}  // namespace ferrule::readback
