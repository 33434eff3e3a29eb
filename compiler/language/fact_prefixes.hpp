// What may stand before a fact: the port, path or inner part that it belongs to. Only files of compiler/language include this.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/language/cursor.hpp"
#include "compiler/model/definition.hpp"

namespace ferrule {

struct FactPrefix {
  std::string name;          // "T", "A>T", "check"; "" for the whole part
  const ElementSpec* element = nullptr;
};

// Takes all that stand there: `A>T B>T drop ...` has two.
std::vector<FactPrefix> take_prefixes(Cursor& cursor, const Definition& definition);

// The fact that begins `ahead` terms further, in one word or in two that the definition joins by a hyphen (`L at most 5 bar`);
// `words` tells how many. Null when none begins there.
const FactSpec* fact_at(const Cursor& cursor, const Definition& definition, std::size_t ahead, std::size_t& words);

// A parameter that only the inner element has: `check drop 4 bar at 60 L/min`.
std::optional<FactSpec> parameter_fact(const ElementSpec& element, std::string_view word);

}  // namespace ferrule
