// Circuits that nobody would build: every kind of element, joined at random. What a solver may not choke on.
#pragma once

#include <cstdint>
#include <string>

namespace ferrule::tests {

// `parts` components between a few points and the reservoir, in the language. The same seed gives the same text.
std::string tangle(int parts, std::uint32_t seed);

}  // namespace ferrule::tests
