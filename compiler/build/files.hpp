// The files of a text: the one that is compiled and those it includes, as one row of statements.
#pragma once

#include <string>
#include <vector>

#include "compiler/compile.hpp"
#include "compiler/language/cursor.hpp"

namespace ferrule {

struct Gathered {
  std::vector<Statement> statements;  // in reading order, an include replaced by what it brings
  bool names_missing = false;         // an include failed: names it would have brought are unknown
};

// Parses `text` and what it includes. Fills sources, trees, files and messages of the compilation.
Gathered gather(const Surroundings& surroundings, Compilation& compilation, const std::string& path, std::string text);

// `name` seen from the folder of `from`, without `.` and `..`; none when it leaves the root or is no relative path.
std::optional<std::string> path_from(const std::string& from, const std::string& name);

}  // namespace ferrule
