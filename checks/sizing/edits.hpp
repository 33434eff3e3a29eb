// Small changes of a circuit's text, as a person would make them: one fact at a time, everything else as it stands.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/compile.hpp"

namespace ferrule::sizing {

// `text` in place of what stands at `at`; an empty place takes it in.
struct Edit {
  Span at;
  std::string text;
};

// A fact and how it is written: {"bore", "80 mm"}.
using Written = std::pair<std::string, std::string>;

// The part's statement with these facts. What the size of a pipe states by its pattern (`22 x 1.5 mm`) is written by pattern
// again; what the statement does not say yet is added to its block. Nothing to do gives no edit.
std::vector<Edit> with_facts(const Compilation& compilation, const Part& part, const std::vector<Written>& facts);

// Whether the part is stated in this file, once and for itself: not inside an assembly, not in a file that is used.
bool is_stated_in(const Compilation& compilation, const Part& part, std::string_view path);

// Edits do not overlap.
std::string applied(std::string text, std::vector<Edit> edits);

// A line that differs: its number in the text before (1-based), and what it reads now. A line that is new has the number of the
// line it follows.
struct ChangedLine {
  std::size_t number = 0;
  bool is_new = false;
  std::string text;
};
// Edits change lines or put whole lines in; none goes away.
std::vector<ChangedLine> changed_lines(std::string_view before, std::string_view after);

}  // namespace ferrule::sizing
