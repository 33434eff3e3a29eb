#include "compiler/language/work.hpp"

#include <algorithm>

#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

// The words that make a statement, and who reads it.
struct Opening {
  std::string_view word;
  void (*read)(WorkReading&, Cursor&);
  bool first;  // read before the others, which name what it declares
};
constexpr Opening openings[] = {
    {"cycle", read_cycle, true},
    {"require", read_requirement, false},
    {"accept", read_accept, false},
    {"ask", read_question, false},
    {"never", read_control, false},
};

const Opening* opening_of(const Statement& statement) {
  const Cursor cursor(*statement.tree, *statement.item);
  if (cursor.done() || !cursor.at(TermKind::word)) return nullptr;
  const std::string_view word = cursor.peek().text;
  const auto found = std::find_if(std::begin(openings), std::end(openings), [&](const Opening& o) { return o.word == word; });
  return found == std::end(openings) ? nullptr : found;
}

// A rule says under what condition; these words belong to no other statement that begins with a tag.
bool has_condition(const Cursor& cursor) {
  const auto terms = cursor.terms();
  return std::any_of(terms.begin() + 1, terms.end(), [](const Term& term) {
    return term.kind == TermKind::word && (term.text == "whenever" || term.text == "only");
  });
}

bool is_switching(const Cursor& cursor) {
  static constexpr std::string_view words[] = {"on", "off", "running", "stopped", "only", "whenever", "lever"};
  return std::any_of(std::begin(words), std::end(words), [&](std::string_view word) { return cursor.at_word(word, 1); });
}

void read_all(WorkReading& work, std::span<const Statement> statements, bool first) {
  for (const Statement& statement : statements) {
    if (statement.item->count == 0) continue;
    const Opening* opening = opening_of(statement);
    if ((opening && opening->first) != first) continue;
    Cursor cursor(*statement.tree, *statement.item);
    const std::size_t before = work.reading.messages.size();
    (opening ? opening->read : read_control)(work, cursor);
    // What the grammar could not read has its message; whatever else it seems to lack is not told.
    if (statement.item->broken) work.reading.messages.resize(before);
  }
}

}  // namespace

bool is_work_statement(const Statement& statement) {
  if (statement.item->count == 0) return false;
  if (opening_of(statement)) return true;
  const Cursor cursor(*statement.tree, *statement.item);
  return cursor.at(TermKind::word) && !cursor.at(TermKind::block, 2) && (is_switching(cursor) || has_condition(cursor));
}

void read_work(Reading& reading, std::span<const Statement> statements, Circuit& circuit) {
  WorkReading work = work_reading(reading, circuit);
  read_all(work, statements, true);
  read_all(work, statements, false);
}

}  // namespace ferrule
