#include "compiler/language/component.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "compiler/language/fact_values.hpp"
#include "compiler/language/rows.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

// `relief valve 0V1`: the kind with blanks in place of its hyphens. Told, and read as it was meant; null when it is none.
const Definition* kind_in_words(Reading& reading, Cursor& cursor, ComponentText& text, Library& library) {
  std::string kind = text.kind;
  for (std::size_t words = 1; words < 5 && cursor.at(TermKind::word, words - 1); ++words) {
    kind += "-" + std::string(cursor.peek(words - 1).text);
    const Definition* definition = library.definition(kind);
    if (!definition) continue;
    for (; words > 0; --words) cursor.take();
    text.kind_span = cursor.since(0);
    reading.report(fault::unknown_kind, text.kind_span, fmt::format("`{}` is one word, with hyphens", reading.text(text.kind_span)), "write `" + kind + "`");
    text.kind = kind;
    return definition;
  }
  return nullptr;
}

// True when the words of `part` stand in `whole`, between hyphens: "relief-valve" in "pressure-relief-valve".
bool has_words(std::string_view whole, std::string_view part) {
  const std::string framed = "-" + std::string(whole) + "-";
  return framed.find("-" + std::string(part) + "-") != std::string::npos;
}

// Kinds that say more or less than the word: of `pump` all pumps, of `pressure-relief-valve` the relief valve. The shortest
// three, since they say least besides.
std::vector<std::string> kinds_akin(std::string_view word, const std::vector<std::string>& known) {
  std::vector<std::string> akin;
  for (const std::string& name : known)
    if (word.size() > 3 && (has_words(name, word) || (name.size() > 4 && has_words(word, name)))) akin.push_back(name);
  std::stable_sort(akin.begin(), akin.end(), [](const std::string& a, const std::string& b) { return a.size() < b.size(); });
  akin.resize(std::min<std::size_t>(akin.size(), 3));
  return akin;
}

void read_head(Reading& reading, Cursor& cursor, ComponentText& text) {
  if (cursor.take_word("like")) {
    text.like_span = cursor.here();
    if (const auto like = want_name(reading, cursor, "`like`", "the tag of another component", text.kind + " " + text.tag + " like C1")) text.like = *like;
    text.facts.unclear = text.like.empty();
  }
  if (cursor.at(TermKind::text)) text.description = take_text(cursor);
}

void read_tail(Reading& reading, Cursor& cursor, ComponentText& text, const Definition& definition, Library& library) {
  if (definition.assembly_block) {
    text.tree = &cursor.tree();
    text.of_parts_inside = cursor.take_block();
    used_up(reading, cursor, fmt::format("the tag `{}`", text.tag));
    return;
  }
  const FactOwner owner = owner_of(definition, library);
  if (!definition.sizes.empty() && !cursor.done() && !cursor.at(TermKind::block)) read_size(reading, cursor, owner, text.facts);
  if (cursor.at(TermKind::text)) text.description = take_text(cursor);
  const Block* block = cursor.take_block();
  if (block) {
    FactsText facts = read_facts(reading, cursor.tree(), *block, owner);
    for (FactValue& fact : text.facts.facts) add_fact(reading, facts, std::move(fact));
    facts.unclear |= text.facts.unclear;
    text.facts = std::move(facts);
  }
  // What follows may be a statement whose line end is lost, with its tag; before a block it stands for facts that were not read.
  if (!used_up(reading, cursor, block ? "the block of a component" : fmt::format("the tag `{}`; facts stand in braces", text.tag))) {
    reading.names_missing = true;
    text.facts.unclear = text.facts.unclear || !block;
  }
}

// `0V1 relief-valve { ... }`: told, and read as it was meant.
std::optional<ComponentText> read_tag_first(Reading& reading, Cursor& cursor, ComponentText text, Library& library) {
  text.tag = std::exchange(text.kind, std::string(cursor.peek().text));
  text.tag_span = std::exchange(text.kind_span, cursor.here());
  cursor.take();
  text.definition = library.definition(text.kind);
  reading.report(fault::unknown_kind, joined(text.tag_span, text.kind_span), "the kind stands before the tag", fmt::format("write `{} {}`", text.kind, text.tag));
  read_head(reading, cursor, text);
  read_tail(reading, cursor, text, *text.definition, library);
  return text;
}

}  // namespace

FactOwner owner_of(const Definition& definition, Library& library) {
  return {definition, &library, definition.ports_from_rows || !definition.rows.empty()};
}

void report_unknown_kind(Reading& reading, std::string_view kind, Span at, Library& library) {
  const std::vector<std::string> akin = kinds_akin(kind, library.definition_names());
  const std::string otherwise = fmt::format("define it: `define {} \"what it is\" {{ ... }}`; `ferrule list` shows all kinds", kind);
  reading.report(fault::unknown_kind, at, fmt::format("`{}` is no kind of component", kind),
                 write_instead(kind, library.definition_names(), akin.empty() ? otherwise : "write " + listed(akin)));
}

void say_of(Reading& reading, Cursor& item, Library& library, ComponentText& text) {
  FactsText said;
  read_fact_item(reading, item, owner_of(*text.definition, library), said);
  for (FactValue& fact : said.facts) replace_fact(text.facts, std::move(fact));
  for (PositionRow& row : said.rows) place_row(text.facts.rows, std::move(row));
  text.facts.broken.merge(said.broken);
  text.facts.operated.insert(text.facts.operated.end(), said.operated.begin(), said.operated.end());
  if (!said.rest.empty()) text.facts.rest = said.rest, text.facts.rest_span = said.rest_span;
  if (!said.prose.empty()) text.facts.prose = said.prose;
}

std::optional<ComponentText> read_component(Reading& reading, const Statement& statement, Library& library) {
  Cursor cursor(*statement.tree, *statement.item);
  ComponentText text;
  text.statement = statement.span();
  text.kind_span = cursor.here();
  text.kind = cursor.take().text;
  text.definition = library.definition(text.kind);
  if (!text.definition) text.definition = kind_in_words(reading, cursor, text, library);
  if (!text.definition && library.definition(cursor.peek().text)) return read_tag_first(reading, cursor, text, library);
  if (text.definition && cursor.at_word(text.kind) && cursor.at(TermKind::word, 1)) {
    reading.report(fault::words_left_over, cursor.here(), fmt::format("`{}` stands twice", text.kind), "leave one of them out");
    cursor.take();
  }
  text.tag_span = cursor.here();
  if (!text.definition) {
    report_unknown_kind(reading, text.kind, text.kind_span, library);
    text.tag = take_name(cursor);
    return text.tag.empty() ? std::nullopt : std::optional(std::move(text));
  }
  const auto tag = want_name(reading, cursor, "`" + text.kind + "`", "a tag", text.kind + " 1V1 { ... }");
  reading.names_missing = reading.names_missing || !tag;  // the tag it was meant to have is used somewhere
  if (!tag) return {};
  text.tag = *tag;
  read_head(reading, cursor, text);
  read_tail(reading, cursor, text, *text.definition, library);
  return text;
}

}  // namespace ferrule
