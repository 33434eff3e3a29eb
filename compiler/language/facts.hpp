// The facts of a block, read against the definition that lists them.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "compiler/language/reading.hpp"
#include "compiler/library/library.hpp"
#include "compiler/model/circuit.hpp"

namespace ferrule {

// What one block said.
struct FactsText {
  std::vector<FactValue> facts;
  std::map<std::pair<std::string, std::string>, std::size_t> places;  // by name and whom it belongs to: its index in `facts`
  std::set<std::string> broken;        // facts that could not be read: stated, but unknown
  std::vector<PositionRow> rows;       // `position ...`
  bool rows_unclear = false;           // a row could not be read whole: its ports and solenoids are unknown
  bool unclear = false;                // an item could not be read: which facts it states is unknown
  bool torn = false;                   // the item before was told: what begins no fact now is part of that slip
  bool rows_left_out = false;          // there were more than a valve may have
  struct Operated { std::string position; std::vector<Actuation> by; Span span; };
  std::vector<Operated> operated;      // `a by solenoid 1Y1`; position "" for `by push-button`
  std::string rest;                    // `rest a`
  Span rest_span;
  std::string prose;                   // bare texts, joined by a line end
};

// Whose facts they are, for messages: "relief-valve".
struct FactOwner {
  const Definition& definition;
  Library* library = nullptr;          // where else a word may belong; null when it can't
  bool rows = false;                   // position rows may stand here
};

// Reads every item of the block. A fact stated twice for one port, path or part is reported with both places.
FactsText read_facts(Reading& reading, const Tree& tree, const Block& block, const FactOwner& owner);
// One item; false (nothing taken) when it does not begin like a fact, a row or a text.
void read_fact_item(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into);

// Adds the fact; when the same was stated before, reports it with both places instead.
void add_fact(Reading& reading, FactsText& into, FactValue fact);

// The same in place of what was stated before.
void replace_fact(FactsText& into, FactValue fact);

// True when both words name the path between the same ports, whatever its sign: "A>T" and "A-T".
bool same_path(std::string_view a, std::string_view b);

// What the circuit and documents state (ambient, grade, load of a tie ...); the library can't extend these.
const Definition& circuit_facts();
const Definition& fluid_facts();
const Definition& tie_facts();

}  // namespace ferrule
