// Shared by the files that make elements. Only files of compiler/build include this.
#pragma once

#include "compiler/build/building.hpp"

namespace ferrule {

// Are all facts stated that the condition names (`bypass`, `not bypass`)? Chosen words and joined ports count as stated.
bool holds(const Circuit& circuit, PartId part, const std::vector<std::string>& when);

// The node of a port, or the inner node of this name (made on first use).
NodeId node_named(Building& building, PartId part, std::string_view name);

// One element per path of each position row.
void add_row_elements(Building& building, PartId part);

}  // namespace ferrule
