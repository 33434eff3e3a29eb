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

FactOwner owner_of(const Definition& definition, Library& library) {
  return {definition, &library, definition.ports_from_rows || !definition.rows.empty()};
}

bool fits(const Cursor& cursor, const Definition& definition, const std::vector<std::string>& pattern) {
  const auto literal = std::find_if(pattern.begin(), pattern.end(), [&](const std::string& word) { return !definition.fact(word); });
  if (literal == pattern.end()) return cursor.at(TermKind::number) || cursor.at_sign("(");
  if (literal == pattern.begin()) return cursor.at_word(*literal);
  for (std::size_t ahead = 0; ahead < cursor.left(); ++ahead)
    if (cursor.at_word(*literal, ahead)) return true;
  return false;
}

// One fact of a size; false after a fault.
bool read_size_fact(Reading& reading, Cursor& cursor, const FactSpec& spec, FactsText& into) {
  FactValue fact;
  fact.name = spec.name;
  const std::size_t mark = cursor.mark();
  if (!read_fact_value(reading, cursor, spec, fact)) return false;
  fact.span = cursor.since(mark);
  if (!within_limits(reading, spec, fact)) return false;
  add_fact(reading, into, std::move(fact));
  return true;
}

// `16x2`, `DN12`, `16mm`: what a size becomes without its blanks. Empty when the word is none.
std::string size_with_blanks(std::string_view word, const Definition& definition) {
  static constexpr std::string_view digits = "0123456789.";
  const std::size_t by = word.find('x');
  if (by != std::string_view::npos && by > 0 && by + 1 < word.size() && word.find_first_not_of(digits) == by &&
      word.find_first_not_of(digits, by + 1) == std::string_view::npos)
    return fmt::format("{} x {}", word.substr(0, by), word.substr(by + 1));
  for (const auto& pattern : definition.sizes) {
    const std::string& first = pattern.front();
    const bool touches = !definition.fact(first) && word.size() > first.size() && word.starts_with(first);
    if (touches && word.find_first_not_of(digits, first.size()) == std::string_view::npos) return first + " " + std::string(word.substr(first.size()));
  }
  return with_blank(word);
}

// A size whose blanks are missing reads like a tag; a tag would be taken in silence and the size be lost.
bool report_run_together(Reading& reading, const Cursor& cursor, const Definition& definition) {
  const bool value_missing = std::any_of(definition.sizes.begin(), definition.sizes.end(), [&](const auto& pattern) {
    return std::find(pattern.begin() + 1, pattern.end(), cursor.peek().text) != pattern.end() && !definition.fact(cursor.peek().text);
  });
  if (value_missing) {
    reading.report(fault::size_unreadable, cursor.here(), fmt::format("no value stands before `{}`", cursor.peek().text), "write " + sizes_in_words(definition));
    return true;
  }
  std::size_t ahead = 0;
  std::string parted;
  for (; ahead < cursor.left() && parted.empty(); ++ahead)
    if (cursor.at(TermKind::word, ahead)) parted = size_with_blanks(cursor.peek(ahead).text, definition);
  if (parted.empty()) return false;
  const Term& word = cursor.peek(ahead - 1);
  reading.report(fault::size_unreadable, word.span, fmt::format("`{}` lacks its blanks", word.text),
                 fmt::format("write `{}`", parted));
  return true;
}

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
  // What follows may be a statement whose line end is lost, with its tag.
  if (!used_up(reading, cursor, block ? "the block of a component" : fmt::format("the tag `{}`; facts stand in braces", text.tag)))
    reading.names_missing = true;
}

}  // namespace

std::string sizes_in_words(const Definition& definition) {
  std::vector<std::string> forms;
  for (const auto& pattern : definition.sizes) {
    static constexpr std::string_view figures[] = {"16", "2"};
    std::string form = definition.name;
    std::size_t values = 0;
    bool length = false;
    for (const std::string& word : pattern) {
      const FactSpec* fact = definition.fact(word);
      length = length || (fact && fact->dimension == dimension::length);
      form += " " + (fact ? std::string(figures[std::min<std::size_t>(values++, 1)]) : word);
    }
    forms.push_back(length ? form + " mm" : form);
  }
  return listed(forms);
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

void read_size(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  const Definition& definition = owner.definition;
  const auto pattern = std::find_if(definition.sizes.begin(), definition.sizes.end(),
                                    [&](const auto& words) { return fits(cursor, definition, words); });
  if (pattern == definition.sizes.end()) {
    std::size_t ahead = 0;
    if (cursor.at(TermKind::word, ahead)) return read_fact_item(reading, cursor, owner, into);
    reading.report(fault::size_unreadable, cursor.here(), fmt::format("`{}` is no size of {}", reading.text(cursor.here()), definition.name),
                   "write " + sizes_in_words(definition));
    return cursor.skip_all();
  }
  for (const std::string& word : *pattern) {
    if (const FactSpec* spec = definition.fact(word)) {
      if (read_size_fact(reading, cursor, *spec, into)) continue;
      into.broken.insert(pattern->begin(), pattern->end());  // one slip leaves no part of the size known
      return cursor.skip_all();
    }
    if (cursor.take_word(word)) continue;
    reading.report(fault::size_unreadable, cursor.here(), fmt::format("the size of {} needs `{}` here", definition.name, word),
                   "write " + sizes_in_words(definition));
    return cursor.skip_all();
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

std::optional<ComponentText> read_pipe(Reading& reading, const Tree& tree, const Block& block, Library& library) {
  if (block.count == 0) {
    reading.report(fault::pipe_broken, block.span, "a pipe has no kind", "write `{tube 16 x 2 mm, length 1.5 m}` or `{hose DN 12}`");
    return {};
  }
  const std::span<const Item> items = tree.items_of(block);
  if (items[0].broken || items[0].count == 0) return {};
  Cursor cursor(tree, items[0]);
  ComponentText text;
  text.statement = block.span;
  text.kind_span = cursor.here();
  text.kind = std::string(cursor.peek().text);
  if (cursor.take().kind != TermKind::word || !(text.definition = library.definition(text.kind))) {
    report_unknown_kind(reading, text.kind, text.kind_span, library);
    return text;
  }
  const FactOwner owner = owner_of(*text.definition, library);
  const std::size_t before = reading.messages.size();
  if (cursor.at_word(text.kind)) {
    reading.report(fault::pipe_broken, cursor.here(), fmt::format("`{}` stands twice", text.kind), "leave one of them out");
    cursor.take();
  }
  if (report_run_together(reading, cursor, owner.definition)) {
    cursor.skip_all();
    for (const auto& pattern : owner.definition.sizes) text.facts.broken.insert(pattern.begin(), pattern.end());
  }
  const bool sized = std::any_of(owner.definition.sizes.begin(), owner.definition.sizes.end(),
                                 [&](const auto& words) { return words.front() == cursor.peek().text; });
  text.tag_span = cursor.here();
  if (cursor.at(TermKind::word) && !sized && !owner.definition.fact(cursor.peek().text)) text.tag = take_name(cursor);
  if (cursor.done() && text.tag.empty()) text.tag_span = text.kind_span;
  if (!cursor.done()) read_size(reading, cursor, owner, text.facts);
  used_up(reading, cursor, "the size of a pipe");
  for (const Item& item : items.subspan(1)) {
    if (item.broken || item.count == 0) continue;
    Cursor further(tree, item);
    text.facts.torn = reading.messages.size() > before;
    read_fact_item(reading, further, owner, text.facts);
  }
  return text;
}

}  // namespace ferrule
