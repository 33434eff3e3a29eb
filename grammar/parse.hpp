// Text to tree. Never fails: what can't be read becomes a broken item and a message.
#pragma once

#include "grammar/tree.hpp"

namespace ferrule {

struct Parsed {
  Tree tree;
  Messages messages;     // family T, in the order of the text
  bool refused = false;  // a limit was broken or the file is no text: one message, an empty tree
};

// Reads one file of the table. Limits (diagnostics: T family): 4 MiB a file, nesting 128, UTF-8 only.
Parsed parse(const Sources& sources, std::uint32_t file);

}  // namespace ferrule
