// `pressure 0P1.P -- {tube 16 x 2 mm} -- 1V1.P` as written; compiler/build joins what it names.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/language/reading.hpp"
#include "compiler/library/library.hpp"

namespace ferrule {

// What stands between two dashes.
struct RunStepText {
  std::string word;               // "0P1.P", "0Z2"; "" for a pipe in braces
  std::string to;                 // of a spelled-out way: the port behind `>` or `-`
  const Block* pipe = nullptr;
  Span span;
};

struct RunText {
  LineFunction function = LineFunction::working;
  std::vector<RunStepText> steps;
  const Tree* tree = nullptr;
  Span span, function_span;
  bool broken = false;            // the text around it could not be read: what it names counts as joined
};

std::optional<LineFunction> function_named(std::string_view word);
// The library tells a pipe whose braces were forgotten from a tag.
RunText read_run(Reading& reading, const Statement& statement, Library& library);

}  // namespace ferrule
