#include "compiler/language/facts.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/rows.hpp"
#include "compiler/language/fact_values.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

struct Prefix {
  std::string name;          // "T", "A>T", "check"; "" for the whole part
  const ElementSpec* element = nullptr;
};

std::vector<std::string> fact_words(const Definition& definition) {
  std::vector<std::string> words;
  for (const FactSpec& fact : definition.facts) words.push_back(fact.name);
  return words;
}

// The fact that begins here: one word, or two that the definition joins by a hyphen (`L at most 5 bar`).
const FactSpec* fact_at(const Cursor& cursor, const Definition& definition, std::size_t ahead, std::size_t& words) {
  if (!cursor.at(TermKind::word, ahead)) return nullptr;
  words = 1;
  if (const FactSpec* fact = definition.fact(cursor.peek(ahead).text)) return fact;
  if (!cursor.at(TermKind::word, ahead + 1)) return nullptr;
  words = 2;
  return definition.fact(std::string(cursor.peek(ahead).text) + "-" + std::string(cursor.peek(ahead + 1).text));
}

// A parameter that only the inner element has: `check drop 4 bar at 60 L/min`.
std::optional<FactSpec> parameter_fact(const ElementSpec& element, std::string_view word) {
  const ElementInfo& info = info_of(element.kind);
  const auto id = parameter_named(word);
  if (!id || std::find(info.parameters.begin(), info.parameters.end(), *id) == info.parameters.end()) return {};
  FactSpec spec;
  spec.name = word;
  for (const ParameterInfo& parameter : parameters()) {
    if (parameter.id == *id) spec.dimension = parameter.dimension;
    if (parameter.word == std::string(word) + "-flow") {
      spec.kind = FactKind::quantity_at;
      spec.at = parameter.dimension;
    }
  }
  return spec;
}

bool is_element_prefix(const Cursor& cursor, const Definition& definition) {
  if (!cursor.at(TermKind::word)) return false;
  const ElementSpec* element = definition.element(cursor.peek().text);
  std::size_t words = 0;
  return element && cursor.at(TermKind::word, 1) &&
         (fact_at(cursor, definition, 1, words) || parameter_fact(*element, cursor.peek(1).text));
}

bool is_port_prefix(const Cursor& cursor, const Definition& definition) {
  if (cursor.left() < 2 || !(cursor.at(TermKind::word) || cursor.at(TermKind::number))) return false;
  const std::string_view word = cursor.peek().text;
  return is_port_name(word) && (definition.port(word) || definition.ports_from_rows || definition.ports_as_named);
}

std::vector<Prefix> take_prefixes(Cursor& cursor, const Definition& definition) {
  std::vector<Prefix> prefixes;
  while (!cursor.done()) {
    if (const auto path = take_path(cursor)) {
      prefixes.push_back({name_of(*path)});
    } else if (is_port_prefix(cursor, definition)) {
      prefixes.push_back({take_name(cursor)});
    } else if (is_element_prefix(cursor, definition)) {
      const ElementSpec* element = definition.element(cursor.peek().text);
      prefixes.push_back({take_name(cursor), element});
    } else {
      break;
    }
  }
  return prefixes;
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

void report_unknown_fact(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  const Term& word = cursor.peek();
  if (word.kind != TermKind::broken || cursor.done()) {
    const std::vector<std::string> known = fact_words(owner.definition);
    const std::string written(reading.text(cursor.here()));
    std::string sentence = fmt::format("`{}` is not a fact of {}", written, owner.definition.name);
    if (nearest(word.text, known).empty())
      if (const std::vector<std::string> others = owners_elsewhere(owner.library, word.text); !others.empty())
        sentence += fmt::format(": `{}` belongs to {}", written, listed(others, "and"));
    reading.report(fault::unknown_fact, cursor.here(), std::move(sentence), write_instead(word.text, known, facts_to_choose(owner.definition, known)));
    // What it was meant to be counts as stated, so that one slip stays one message.
    for (const std::string& near : nearest(word.text, known)) into.broken.insert(near);
  }
  cursor.skip_all();
}

// A missing comma is the usual reason for words behind a value.
void report_left_over(Reading& reading, Cursor& cursor, const FactOwner& owner, const FactSpec& spec, FactsText& into) {
  std::size_t words = 0;
  const FactSpec* next = fact_at(cursor, owner.definition, 0, words);
  if (next) into.broken.insert(next->name);  // stated, though it could not be read
  if (next)
    reading.report(fault::words_left_over, cursor.here(), fmt::format("`{}` begins a new fact, but no comma stands before it", next->name),
                   fmt::format("write a comma before `{}`", next->name));
  else
    used_up(reading, cursor, spec.kind == FactKind::flag ? fmt::format("`{}`, which takes no value", spec.name)
                                                         : fmt::format("the value of `{}`", spec.name));
  cursor.skip_all();
}

void read_named_fact(Reading& reading, Cursor& cursor, const FactOwner& owner, const std::vector<Prefix>& prefixes,
                     const FactSpec& spec, FactsText& into) {
  FactValue fact;
  fact.name = spec.name;
  const bool good = read_fact_value(reading, cursor, spec, fact);
  // A tag is a place of its own: unknown ones are shown there.
  fact.span = good && fact.kind == FactKind::tag ? cursor.since(cursor.mark() - 1) : cursor.whole();
  if (!good || !within_limits(reading, spec, fact)) {
    into.broken.insert(spec.name);
    cursor.skip_all();
    return;
  }
  if (!cursor.done()) report_left_over(reading, cursor, owner, spec, into);
  if (prefixes.empty()) return add_fact(reading, into, std::move(fact));
  for (const Prefix& prefix : prefixes) {
    fact.belongs_to = prefix.name;
    add_fact(reading, into, fact);
  }
}

void read_fact(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  const std::vector<Prefix> prefixes = take_prefixes(cursor, owner.definition);
  std::size_t words = 0;
  const FactSpec* spec = fact_at(cursor, owner.definition, 0, words);
  std::optional<FactSpec> parameter;
  if (!spec && !prefixes.empty() && prefixes.back().element && (parameter = parameter_fact(*prefixes.back().element, cursor.peek().text))) {
    spec = &*parameter;
    words = 1;
  }
  if (!spec) return report_unknown_fact(reading, cursor, owner, into);
  while (words-- > 0) cursor.take();
  read_named_fact(reading, cursor, owner, prefixes, *spec, into);
}

void add_row(Reading& reading, FactsText& into, PositionRow row) {
  const auto same = std::find_if(into.rows.begin(), into.rows.end(), [&](const PositionRow& other) { return other.name == row.name; });
  if (same == into.rows.end()) return into.rows.push_back(std::move(row));
  Message& message = reading.report(fault::position_twice, row.span, fmt::format("position `{}` has two rows", row.name),
                                    "give one of them another name", "again here");
  message.places.push_back({same->span, "first here"});
  // Kept under another name: its solenoids are declared.
  row.name += " (again)";
  into.rows.push_back(std::move(row));
}

// `a by solenoid 1Y1`, `by push-button`, `rest a`, `position a ...`: what only valves have. True when taken.
bool read_valve_item(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  if (owner.rows && cursor.take_word("position")) {
    if (auto row = read_position(reading, cursor)) add_row(reading, into, std::move(*row));
    return true;
  }
  if (owner.rows && cursor.at_word("rest") && cursor.left() == 2) {
    cursor.take();
    into.rest_span = cursor.here();
    into.rest = take_name(cursor);
    return true;
  }
  const bool named = (cursor.at(TermKind::word) || cursor.at(TermKind::number)) && cursor.at_word("by", 1);
  if (!named && !(cursor.at_word("by") && !owner.definition.fact("by"))) return false;
  FactsText::Operated operated;
  operated.span = cursor.whole();
  if (named) operated.position = take_name(cursor);
  cursor.take();
  read_actuations(reading, cursor, operated.by);
  used_up(reading, cursor, "what shifts the valve");
  into.operated.push_back(std::move(operated));
  return true;
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
  const auto same = std::find_if(into.facts.begin(), into.facts.end(), [&](const FactValue& other) {
    return other.name == fact.name && other.belongs_to == fact.belongs_to;
  });
  if (same == into.facts.end()) return into.facts.push_back(std::move(fact));
  const std::string of = fact.belongs_to.empty() ? "" : " of " + fact.belongs_to;
  Message& message = reading.report(fault::fact_twice, fact.span, fmt::format("`{}`{} is stated twice", fact.name, of), "leave one of them out",
                                    "again here");
  message.places.push_back({same->span, "first here"});
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
    if (!item.broken) read_fact_item(reading, cursor, owner, into);
    else if (cursor.at(TermKind::word)) into.broken.insert(std::string(cursor.peek().text));
  }
  return into;
}

}  // namespace ferrule
