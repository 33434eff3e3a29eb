// Small edits of a generated circuit, as one makes between two commits: what a drawing should hardly notice.
#pragma once

#include <string>
#include <vector>

namespace ferrule::tests {

struct Edit {
  std::string name, text;   // what was done, and the whole circuit after it
};

// A value, the kind of a valve, the size of a pipe, a gauge and a check valve more, a branch more at the end; as far as they apply.
std::vector<Edit> small_edits(const std::string& circuit);

}  // namespace ferrule::tests
