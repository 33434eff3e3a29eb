// The pages of `ferrule explain`, whoever reports what they explain.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ferrule {

// One thing that can be reported: a rule of checks, a fault of the text, of its characters, or of an accept.
struct Explained {
  std::string code, name, level;  // level: "error", "warning", "advice"
  std::string page;               // Markdown
};

// All of them, sorted by code.
std::vector<Explained> all_explained();

// Null when there is none of this code (upper or lower case) or name.
const Explained* explained(const std::vector<Explained>& all, std::string_view code_or_name);

// " (did you mean ...?)" for a code or name that does not exist; codes are compared with codes, names with names.
std::string nearest_explained(const std::vector<Explained>& all, std::string_view word);

}  // namespace ferrule
