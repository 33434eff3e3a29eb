#include "compiler/language/facts.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/fact_prefixes.hpp"
#include "compiler/language/fact_values.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/valve_facts.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

std::vector<std::string> fact_words(const Definition& definition) {
  std::vector<std::string> words;
  for (const FactSpec& fact : definition.facts) words.push_back(fact.name);
  return words;
}

// Other components that have this fact, three at most: "`displacement` belongs to fixed-pump".
std::vector<std::string> owners_elsewhere(Library* library, std::string_view word) {
  std::vector<std::string> owners;
  if (!library) return owners;
  for (const std::string& name : library->definition_names()) {
    const Definition* other = library->definition(name);
    if (!other || !other->fact(word)) continue;
    // Of a family the kind that the others are like says it for all.
    const Definition* base = other->like.empty() ? nullptr : library->definition(other->like);
    if (owners.size() < 3 && !(base && base->fact(word))) owners.push_back(name);
  }
  return owners;
}

std::string facts_to_choose(const Definition& definition, const std::vector<std::string>& known) {
  if (known.empty()) return "leave it out: " + definition.name + " has no facts";
  return known.size() <= 8 ? "write one of " + listed(known) : "`ferrule list " + definition.name + "` shows its facts";
}

// Which facts an item states that could not be read is unknown; any word of it may name one.
void note_unclear(const Cursor& cursor, FactsText& into) {
  into.unclear = true;
  for (const Term& term : cursor.terms())
    if (term.kind == TermKind::word) into.broken.insert(std::string(term.text));
}

void report_unknown_fact(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  const Term& word = cursor.peek();
  const std::vector<std::string> known = fact_words(owner.definition);
  const bool part_of_slip = into.torn && nearest(word.text, known).empty() && owners_elsewhere(owner.library, word.text).empty();
  if ((word.kind != TermKind::broken || cursor.done()) && !owner.definition.unclear && !part_of_slip) {
    const std::string written(reading.text(cursor.here()));
    std::string sentence = fmt::format("`{}` is not a fact of {}", written, owner.definition.name);
    if (nearest(word.text, known).empty())
      if (const std::vector<std::string> others = owners_elsewhere(owner.library, word.text); !others.empty())
        sentence += fmt::format(": `{}` belongs to {}", written, listed(others, "and"));
    reading.report(fault::unknown_fact, cursor.here(), std::move(sentence), write_instead(word.text, known, facts_to_choose(owner.definition, known)));
    // What it was meant to be counts as stated, so that one slip stays one message.
    for (const std::string& near : nearest(word.text, known)) into.broken.insert(near);
  }
  note_unclear(cursor, into);
  into.rows_unclear = into.rows_unclear || owner.rows;  // it may have named a solenoid
  cursor.skip_all();
}

void read_fact(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into);

// Behind a missing comma, which is told, everything is read as it was meant.
void read_further_facts(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  const std::size_t told = reading.messages.size();
  read_fact(reading, cursor, owner, into);
  reading.messages.resize(told);
}

// A missing comma is the usual reason for words behind a value.
void report_left_over(Reading& reading, Cursor& cursor, const FactOwner& owner, const FactSpec& spec, FactsText& into) {
  std::size_t words = 0;
  const FactSpec* next = fact_at(cursor, owner.definition, 0, words);
  if (next == &spec) {
    reading.report(fault::words_left_over, cursor.here(), fmt::format("`{}` stands twice", next->name), "leave one of them out");
    return cursor.skip_all();
  }
  if (next)
    reading.report(fault::words_left_over, cursor.here(), fmt::format("`{}` begins a new fact, but no comma stands before it", next->name),
                   fmt::format("write a comma before `{}`", next->name));
  if (next) return read_further_facts(reading, cursor, owner, into);
  used_up(reading, cursor, spec.kind == FactKind::flag ? fmt::format("`{}`, which takes no value", spec.name)
                                                         : fmt::format("the value of `{}`", spec.name));
  cursor.skip_all();
}

void read_named_fact(Reading& reading, Cursor& cursor, const FactOwner& owner, const std::vector<FactPrefix>& prefixes,
                     const FactSpec& spec, std::size_t begins, FactsText& into) {
  FactValue fact;
  fact.name = spec.name;
  const bool good = read_fact_value(reading, cursor, spec, fact);
  // A tag is a place of its own: unknown ones are shown there. What could not be read is shown with all that stands around it.
  fact.span = !good ? cursor.whole() : cursor.since(fact.kind == FactKind::tag ? cursor.mark() - 1 : begins);
  if (!good || !within_limits(reading, spec, fact)) {
    into.broken.insert(spec.name);
    cursor.skip_all();
    return;
  }
  if (!cursor.done()) report_left_over(reading, cursor, owner, spec, into);
  if (spec.repeats) return into.facts.push_back(std::move(fact));
  if (prefixes.empty()) return add_fact(reading, into, std::move(fact));
  for (const FactPrefix& prefix : prefixes) {
    fact.belongs_to = prefix.name;
    add_fact(reading, into, fact);
  }
}

void read_fact(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  const std::size_t begins = cursor.mark();
  const std::vector<FactPrefix> prefixes = take_prefixes(cursor, owner.definition);
  std::size_t words = 0;
  const FactSpec* spec = fact_at(cursor, owner.definition, 0, words);
  std::optional<FactSpec> parameter;
  if (!spec && !prefixes.empty() && prefixes.back().element && (parameter = parameter_fact(*prefixes.back().element, cursor.peek().text))) {
    spec = &*parameter;
    words = 1;
  }
  if (!spec) return report_unknown_fact(reading, cursor, owner, into);
  while (words-- > 0) cursor.take();
  read_named_fact(reading, cursor, owner, prefixes, *spec, begins, into);
}

// A broken row still declares its solenoids; of a broken fact, and of what it swallowed, only that it is stated.
void read_broken_item(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  const std::size_t before = reading.messages.size();
  const bool row = owner.rows && read_valve_item(reading, cursor, owner, into);
  reading.messages.resize(before);
  if (row) into.rows_unclear = true;
  else note_unclear(cursor, into);
}

void read_prose(Reading& reading, Cursor& cursor, FactsText& into) {
  if (!into.prose.empty()) into.prose += '\n';
  into.prose += take_text(cursor);
  used_up(reading, cursor, "a text");
}

}  // namespace

bool same_path(std::string_view a, std::string_view b) {
  const auto ports = [](std::string_view path) {
    std::vector<std::string> names(1);
    for (const char c : path) {
      const bool sign = std::string_view("><|~-").find(c) != std::string_view::npos;
      if (!sign) names.back() += c;
      else if (!names.back().empty()) names.emplace_back();
    }
    std::sort(names.begin(), names.end());
    return names;
  };
  return a == b || ports(a) == ports(b);
}

void add_fact(Reading& reading, FactsText& into, FactValue fact) {
  const auto [place, fresh] = into.places.try_emplace({fact.name, fact.belongs_to}, into.facts.size());
  if (fresh) return into.facts.push_back(std::move(fact));
  const std::string of = fact.belongs_to.empty() ? "" : " of " + fact.belongs_to;
  Message& message = reading.report(fault::fact_twice, fact.span, fmt::format("`{}`{} is stated twice", fact.name, of), "leave one of them out",
                                    "again here");
  message.places.push_back({into.facts[place->second].span, "first here"});
}

void replace_fact(FactsText& into, FactValue fact) {
  const auto [place, fresh] = into.places.try_emplace({fact.name, fact.belongs_to}, into.facts.size());
  if (fresh) into.facts.push_back(std::move(fact));
  else into.facts[place->second] = std::move(fact);
}

void read_fact_item(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  if (cursor.at(TermKind::text)) return read_prose(reading, cursor, into);
  if (read_valve_item(reading, cursor, owner, into)) return;
  read_fact(reading, cursor, owner, into);
}

FactsText read_facts(Reading& reading, const Tree& tree, const Block& block, const FactOwner& owner) {
  FactsText into;
  for (const Item& item : tree.items_of(block)) {
    if (item.count == 0) continue;
    Cursor cursor(tree, item);
    const std::size_t before = reading.messages.size();
    if (item.broken) read_broken_item(reading, cursor, owner, into);
    else read_fact_item(reading, cursor, owner, into);
    into.torn = reading.messages.size() > before;
    into.unclear = into.unclear || into.torn;
  }
  return into;
}

}  // namespace ferrule
