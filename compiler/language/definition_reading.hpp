// What the readers of one `define` share. Only files of compiler/language include this.
#pragma once

#include <set>

#include "compiler/language/definitions.hpp"
#include "compiler/language/rows.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {

struct DefinitionReading {
  Reading& reading;
  Definition& definition;
  std::set<std::string_view> said;   // statement words that this definition said itself, not what it is like

  // True when the statement is the first of its kind here: what was taken from the definition it is like goes.
  bool first(std::string_view word) { return said.insert(word).second; }
  Message& report(Span at, std::string sentence, std::string fix) {
    return reading.report(fault::definition_broken, at, std::move(sentence), std::move(fix));
  }
};

void read_fact_spec(DefinitionReading& made, Cursor& cursor);
// `one of a, b, c`: the comma ended the item, so the further words come as items of their own. True when taken.
bool read_further_choices(DefinitionReading& made, Cursor& cursor);
void read_inside(DefinitionReading& made, Cursor& cursor);

}  // namespace ferrule
