// The size of a pipe and its braces: `{hose L1 DN 32, length 1 m}`.
#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/component.hpp"
#include "compiler/language/fact_values.hpp"
#include "compiler/language/words.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

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
