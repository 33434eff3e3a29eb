// Tokens to tree: which terms make an item, which items a block.
#pragma once

#include <span>

#include "grammar/tokens.hpp"
#include "grammar/tree.hpp"

namespace ferrule {

// What tells where a block ends. Layout also believes the indentation, which mends a missing or stray brace, but it would
// misread an unusual layout that is correct; so it is asked only when the braces do not work out.
enum class Witness : std::uint8_t { braces, layout };

struct BlockReading {
  Tree tree;
  std::vector<Fault> faults;       // in the order they were met
  std::size_t brace_faults = 0;    // how many of them are about braces
  bool too_deep = false;           // the tree is not complete
};

constexpr std::size_t deepest_nesting = 128;

BlockReading read_blocks(const Source& source, std::uint32_t file, std::span<const Token> tokens, Witness witness);

}  // namespace ferrule
