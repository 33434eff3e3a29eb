// Circuits made by a seed, as text in the language: for property tests and the bench. Values are sensible but invented.
#pragma once

#include <cstdint>
#include <string>

namespace ferrule::tests {

// A circuit of about `components` components (pipes not counted): one supply, then branches of a dozen kinds.
// The same seed gives the same text on any machine.
std::string generated_circuit(int components, std::uint32_t seed);

// The same graph as the text for a general graph program: one node a component, one edge a joined pair.
std::string generated_graph(int components, std::uint32_t seed);

}  // namespace ferrule::tests
