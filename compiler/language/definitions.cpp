#include "compiler/language/definitions.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/definition_reading.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

void read_port(DefinitionReading& made, Cursor& cursor) {
  PortSpec port;
  port.span = cursor.here();
  const auto name = want_name(made.reading, cursor, "`port`", "the port's name", "port P \"pressure\"");
  if (!name) return;
  port.name = *name;
  if (cursor.take_word("is")) {
    const Span at = cursor.here();
    const auto inner = want_word(made.reading, cursor, "`is`", "a port of a part inside", "port P is V1.P");
    if (!inner) return;
    const std::size_t dot = inner->rfind('.');
    if (dot == std::string::npos) {
      made.report(at, fmt::format("`{}` is no port of a part", *inner), "write tag and port, as `V1.P`");
      return;
    }
    made.definition.ports_of_inside.push_back({port.name, inner->substr(0, dot), inner->substr(dot + 1), at});
  }
  while (const Term* word = cursor.take_kind(TermKind::word)) {
    if (const auto use = port_use_named(word->text)) port.use = *use;
    else if (word->text == "may" && cursor.take_word("stay") && cursor.take_word("open")) port.may_stay_open = true;
    else made.report(word->span, fmt::format("`{}` says nothing about a port", word->text),
                     "write `pilot`, `drain`, `mechanical`, `electrical` or `may stay open` before the text");
  }
  port.text = take_text(cursor);
  std::erase_if(made.definition.ports, [&](const PortSpec& other) { return other.name == port.name; });
  made.definition.ports.push_back(std::move(port));
}

void read_ports(DefinitionReading& made, Cursor& cursor) {
  if (cursor.take_word("from")) {
    if (cursor.take_word("rows")) made.definition.ports_from_rows = true;
  } else if (cursor.take_word("as")) {
    if (cursor.take_word("named")) made.definition.ports_as_named = true;
  }
  if (!made.definition.ports_from_rows && !made.definition.ports_as_named)
    made.report(cursor.whole(), "`ports` says neither `from rows` nor `as named`", "write `ports from rows` or `ports as named`");
}

void read_through(DefinitionReading& made, Cursor& cursor) {
  if (made.first("through")) made.definition.through.clear();
  Through through;
  through.from = take_name(cursor);
  through.both_ways = cursor.take_sign("-");
  if (!through.both_ways && !cursor.take_sign(">"))
    return (void)made.report(cursor.whole(), "`through` needs two ports", "write `through IN > OUT` or `through 1 - 2`");
  through.to = take_name(cursor);
  made.definition.through.push_back(std::move(through));
}

void read_enough(DefinitionReading& made, Cursor& cursor) {
  if (made.first("enough")) made.definition.enough.clear();
  made.definition.enough.push_back(take_names(cursor));
}

void read_always(DefinitionReading& made, Cursor& cursor) {
  Relation relation;
  relation.span = cursor.whole();
  relation.smaller = take_name(cursor);
  const bool below = cursor.take_word("below");
  relation.larger = take_name(cursor);
  if (relation.larger.empty() || !below)
    return (void)made.report(cursor.whole(), "`always` needs two facts", "write `always cracking below full-flow`");
  made.definition.always.push_back(std::move(relation));
}

void read_role(DefinitionReading& made, Cursor& cursor) {
  Role role;
  const auto name = want_word(made.reading, cursor, "`role`", "the role's name", "role limits P > T");
  if (!name) return;
  role.name = *name;
  while (!cursor.done() && !cursor.at(TermKind::broken) && !cursor.at(TermKind::text)) {
    const Term& term = cursor.take();
    // `working A vent L`: these words say which port is which, and their order does so already.
    if (term.kind == TermKind::sign || term.text == "working" || term.text == "vent") continue;
    role.ports.emplace_back(term.text);
  }
  std::erase_if(made.definition.roles, [&](const Role& other) { return other.name == role.name; });
  made.definition.roles.push_back(std::move(role));
}

void read_symbol_choice(DefinitionReading& made, Cursor& cursor) {
  if (made.first("symbol")) made.definition.symbols.clear();
  SymbolChoice choice;
  const auto name = want_word(made.reading, cursor, "`symbol`", "the symbol's name", "symbol relief-valve");
  if (!name) return;
  choice.symbol = *name;
  if (cursor.take_word("when")) {
    do {
      const bool absent = cursor.take_word("not");
      choice.when.push_back((absent ? "not " : "") + take_name(cursor));
    } while (cursor.take_word("and"));
  }
  made.definition.symbols.push_back(std::move(choice));
}

void read_size(DefinitionReading& made, Cursor& cursor) {
  if (made.first("size")) made.definition.sizes.clear();
  std::vector<std::string> pattern;
  while (!cursor.done() && cursor.at(TermKind::word)) pattern.emplace_back(cursor.take().text);
  if (pattern.empty()) made.report(cursor.whole(), "`size` needs its facts", "write `size outside x wall`, `size DN dn` or `size bore`");
  else made.definition.sizes.push_back(std::move(pattern));
}

void read_letter(DefinitionReading& made, Cursor& cursor) { made.definition.letter = take_name(cursor); }

void read_place(DefinitionReading& made, Cursor& cursor) {
  made.definition.tier = take_name(cursor);
  made.definition.beside.clear();
  while (!cursor.done() && cursor.at(TermKind::word)) made.definition.beside.emplace_back(cursor.take().text);
}

void read_family(DefinitionReading& made, Cursor& cursor) { made.definition.family = take_name(cursor); }

void read_shows(DefinitionReading& made, Cursor& cursor) {
  if (made.first("shows")) made.definition.shows.clear();
  // `shows nothing` drops the rows of the definition it is like.
  if (!cursor.take_word("nothing")) made.definition.shows.push_back(take_text(cursor));
}

void read_says(DefinitionReading& made, Cursor& cursor) { made.definition.says = take_text(cursor); }

void read_row(DefinitionReading& made, Cursor& cursor) {
  if (auto row = read_position(made.reading, cursor)) place_row(made.definition.rows, std::move(*row));
}

void read_assembly(DefinitionReading& made, Cursor& cursor) {
  if (const Term* block = cursor.take_kind(TermKind::block)) made.definition.assembly_block = block->block;
  else made.report(cursor.here(), "`assembly` needs a block in braces", "write `assembly { components and runs }`");
}

struct DefinitionStatement {
  std::string_view word;
  void (*read)(DefinitionReading&, Cursor&);
};
constexpr DefinitionStatement statements[] = {
    {"port", read_port},       {"ports", read_ports},          {"through", read_through}, {"fact", read_fact_spec},
    {"enough", read_enough},   {"always", read_always},        {"inside", read_inside},   {"role", read_role},
    {"symbol", read_symbol_choice}, {"size", read_size},       {"letter", read_letter},   {"place", read_place},
    {"family", read_family},   {"shows", read_shows},          {"says", read_says},       {"position", read_row},
    {"assembly", read_assembly},
};

std::vector<std::string> statement_words() {
  std::vector<std::string> words;
  for (const DefinitionStatement& statement : statements) words.emplace_back(statement.word);
  return words;
}

void read_statement(DefinitionReading& made, Cursor& cursor) {
  const Term& first = cursor.peek();
  const auto found = std::find_if(std::begin(statements), std::end(statements),
                                  [&](const DefinitionStatement& s) { return cursor.at_word(s.word); });
  if (found == std::end(statements)) {
    if (read_further_choices(made, cursor)) return;
    if (first.kind != TermKind::broken)
      made.report(cursor.here(), fmt::format("`{}` begins no statement of a definition", made.reading.text(cursor.here())),
                  write_instead(first.text, statement_words(), "write one of " + listed(statement_words())));
    return;
  }
  cursor.take();
  const std::size_t before = made.reading.messages.size();
  found->read(made, cursor);
  // One slip, one message: a statement that was reported is not searched for leftovers.
  if (made.reading.messages.size() == before) used_up(made.reading, cursor, fmt::format("this `{}`", found->word));
}

// Takes over everything of the definition it is like; the block then adds and replaces.
void copy_base(DefinitionReading& made, Cursor& cursor, Library& library) {
  if (!cursor.take_word("like")) return;
  const Span at = cursor.here();
  const auto base_name = want_word(made.reading, cursor, "`like`", "the name of a definition", "define NAME like valve { ... }");
  if (!base_name) return;
  const Definition* base = library.definition(*base_name);
  if (!base) {
    made.reading.report(fault::unknown_kind, at, fmt::format("no definition is called `{}`", *base_name),
                        write_instead(*base_name, library.definition_names(), "define it, or leave `like` out"));
    return;
  }
  const std::string name = made.definition.name;
  const Span span = made.definition.span;
  made.definition = *base;
  made.definition.name = name;
  made.definition.span = span;
  made.definition.like = *base_name;
}

}  // namespace

Definition read_definition(Reading& reading, Cursor cursor, Library& library) {
  Definition definition;
  DefinitionReading made{reading, definition, {}};
  definition.span = cursor.here();
  const std::size_t before = reading.messages.size();
  const auto name = want_word(reading, cursor, "`define`", "a name", "define NAME \"what it is\" { ... }");
  if (!name) return definition;
  definition.name = *name;
  copy_base(made, cursor, library);
  definition.tree = &cursor.tree();
  if (cursor.at(TermKind::text)) definition.term = take_text(cursor);
  if (const Block* block = want_block(reading, cursor, "`define`", "define " + *name + " \"what it is\" { ... }")) {
    each_item(cursor.tree(), *block, [&](Cursor& item) { read_statement(made, item); });
    used_up(reading, cursor, "the block of a definition");
  }
  definition.unclear |= reading.messages.size() > before;
  definition.is_pipe = !definition.sizes.empty() || definition.role("line");
  return definition;
}

}  // namespace ferrule
