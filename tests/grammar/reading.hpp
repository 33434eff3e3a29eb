// A text read for a test, and its tree written so that a test can show it.
#pragma once

#include <string>

#include "grammar/parse.hpp"

namespace ferrule {

struct ReadText {
  explicit ReadText(std::string text) { parsed = parse(sources, sources.add("test.fer", std::move(text))); }
  const Source& source() const { return sources[0]; }
  Sources sources;
  Parsed parsed;
};

// One item per pair of parentheses: `(word:valve word:1V1 {(word:drop number:5 word:bar)})`. A `!` marks a broken item,
// a `^` a term without a blank before it.
std::string shape(const Tree& tree);

// `3:8 block-not-closed` per message, one a line; the second place behind it when there is one: ` -> 5:1`.
std::string faults(const ReadText& read);

}  // namespace ferrule
