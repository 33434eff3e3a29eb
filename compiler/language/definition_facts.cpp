// `fact setting : pressure from 1 bar to 700 bar default 160 bar "doc" source "common practice"`
#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/definition_reading.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"

namespace ferrule {
namespace {

struct FactReading {
  DefinitionReading& made;
  Cursor& cursor;
  FactSpec& fact;
};

std::optional<Dimension> take_dimension(FactReading& in) {
  const Term* word = in.cursor.take_kind(TermKind::word);
  if (!word) {
    in.made.report(in.cursor.here(), fmt::format("the fact `{}` needs a type", in.fact.name), "write `fact rated : pressure \"...\"`");
    return {};
  }
  static constexpr std::string_view plain[] = {"count", "number", "ratio", "share", "coefficient"};
  if (std::find(std::begin(plain), std::end(plain), word->text) != std::end(plain)) return dimension::none;
  const auto dimension = dimension_named(word->text);
  if (!dimension)
    in.made.report(word->span, fmt::format("`{}` is no type of a fact", word->text),
                   "write a dimension (pressure, flow, length ...), `range`, `list`, `flag`, `text`, `tag`, `count` or `one of`");
  return dimension;
}

void take_choices(Cursor& cursor, FactSpec& fact) {
  while (!cursor.done() && (cursor.at(TermKind::word) || cursor.at(TermKind::number))) {
    const std::string_view word = cursor.peek().text;
    if (word == "default" || word == "command") return;
    cursor.take();
    if (word != "or" && word != "and") fact.choices.emplace_back(word);
  }
}

// `tag of prime-mover or actuator`
void take_roles(Cursor& cursor, FactSpec& fact) {
  do fact.choices.push_back(take_name(cursor));
  while (cursor.take_word("or"));
}

bool read_type(FactReading& in) {
  static constexpr std::pair<std::string_view, FactKind> wordless[] = {
      {"flag", FactKind::flag}, {"text", FactKind::text}, {"tag", FactKind::tag}};
  for (const auto& [word, kind] : wordless)
    if (in.cursor.take_word(word)) {
      in.fact.kind = kind;
      if (kind == FactKind::tag && in.cursor.take_word("of")) take_roles(in.cursor, in.fact);
      return true;
    }
  if (in.cursor.at_word("one") && in.cursor.at_word("of", 1)) {
    in.cursor.take();
    in.cursor.take();
    in.fact.kind = FactKind::choice;
    take_choices(in.cursor, in.fact);
    return true;
  }
  if (in.cursor.take_word("range")) in.fact.kind = FactKind::range;
  else if (in.cursor.take_word("list")) in.fact.kind = FactKind::list;
  const auto dimension = take_dimension(in);
  if (!dimension) return false;
  in.fact.dimension = *dimension;
  if (!in.cursor.take_word("at")) return true;
  const auto at = take_dimension(in);
  in.fact.kind = FactKind::quantity_at;
  if (at) in.fact.at = *at;
  return at.has_value();
}

void read_limits(FactReading& in) {
  const auto low = read_quantity(in.made.reading, in.cursor, in.fact.dimension, "`from`");
  if (!low || !in.cursor.take_word("to")) return;
  const auto high = read_quantity(in.made.reading, in.cursor, in.fact.dimension, "`to`");
  in.fact.low = low->si;
  if (high) in.fact.high = high->si;
}

void read_above(FactReading& in) {
  if (const auto low = read_quantity(in.made.reading, in.cursor, in.fact.dimension, "`above`")) in.fact.low = low->si;
}

void read_default(FactReading& in) {
  if (in.fact.kind == FactKind::text) {
    const Term* text = in.cursor.take_kind(TermKind::text);
    if (text) in.fact.preset = Formula{&in.cursor.tree(), static_cast<std::uint32_t>(text - in.cursor.tree().terms.data()), 1, text->span};
    return;
  }
  in.fact.preset = take_formula(in.cursor);
  if (in.fact.kind == FactKind::quantity_at && in.cursor.take_word("at")) in.fact.preset_at = take_formula(in.cursor);
  if (in.fact.preset->count == 0) in.made.report(in.cursor.here(), "`default` needs a value", "write `default 8 bar`");
}

void read_then(FactReading& in) {
  do {
    if (const Term* text = in.cursor.take_kind(TermKind::text)) in.fact.then.push_back(unescaped(*text));
    else in.fact.then.push_back(take_name(in.cursor));
  } while (in.cursor.take_word("or"));
}

void read_source(FactReading& in) { in.fact.source = take_text(in.cursor); }
void read_command(FactReading& in) { in.fact.command = true; }

struct FactClause {
  std::string_view word;
  void (*read)(FactReading&);
};
constexpr FactClause clauses[] = {{"from", read_limits}, {"above", read_above},   {"default", read_default},
                                  {"then", read_then},   {"source", read_source}, {"command", read_command}};

void read_clauses(FactReading& in) {
  while (!in.cursor.done()) {
    if (in.cursor.at(TermKind::text)) {
      in.fact.text = take_text(in.cursor);
      continue;
    }
    const auto found = std::find_if(std::begin(clauses), std::end(clauses), [&](const FactClause& c) { return in.cursor.at_word(c.word); });
    if (found == std::end(clauses)) return;
    in.cursor.take();
    found->read(in);
  }
}

}  // namespace

void read_fact_spec(DefinitionReading& made, Cursor& cursor) {
  FactSpec fact;
  fact.span = cursor.here();
  const auto name = want_word(made.reading, cursor, "`fact`", "a name", "fact rated : pressure \"highest pressure\"");
  if (!name) return;
  fact.name = *name;
  if (!cursor.take_sign(":"))
    return (void)made.report(cursor.here(), fmt::format("the fact `{}` needs `:` and a type", fact.name), "write `fact " + fact.name + " : pressure`");
  FactReading in{made, cursor, fact};
  if (!read_type(in)) return;
  read_clauses(in);
  const auto same = std::find_if(made.definition.facts.begin(), made.definition.facts.end(), [&](const FactSpec& f) { return f.name == fact.name; });
  // In its place, so that the order of the reference is that of the definition it is like.
  if (same != made.definition.facts.end()) *same = std::move(fact);
  else made.definition.facts.push_back(std::move(fact));
}

bool read_further_choices(DefinitionReading& made, Cursor& cursor) {
  if (made.definition.facts.empty()) return false;
  FactSpec& fact = made.definition.facts.back();
  if (fact.kind != FactKind::choice || !fact.text.empty() || !cursor.at(TermKind::word)) return false;
  take_choices(cursor, fact);
  FactReading in{made, cursor, fact};
  read_clauses(in);
  return used_up(made.reading, cursor, "the choices of a fact");
}

}  // namespace ferrule
