// The flow-path table sentence by sentence, in any language of the phrases.
#pragma once

#include "compiler/paths/paths.hpp"
#include "compiler/phrases/phrases.hpp"

namespace ferrule {

// One sentence for each valve, pump, actuator and store; at least one.
std::vector<std::string> sentences_of(const Circuit& circuit, const StatePaths& paths, const Phrases& say);

}  // namespace ferrule
