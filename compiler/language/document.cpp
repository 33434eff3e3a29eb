#include "compiler/language/document.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

// ---------------------------------------------------------------- sheet

// What stands in a title block (ISO 7200) and how the sheet is drawn.
constexpr std::string_view sheet_texts[] = {"number", "revision", "owner",      "created",  "approved", "checked",  "date",      "status",
                                            "title",  "language", "department", "reference", "type",    "pressures", "flows", "style"};

// ISO 216, as far as ISO 5457 has sheets of it.
constexpr std::string_view sheet_formats[] = {"A4", "A3", "A2", "A1", "A0"};

void read_format(Reading& reading, Cursor& cursor, SheetData& sheet) {
  const Span at = cursor.here();
  sheet.format = take_name(cursor);
  const std::vector<std::string> known(std::begin(sheet_formats), std::end(sheet_formats));
  if (std::find(known.begin(), known.end(), sheet.format) == known.end())
    reading.report(fault::unknown_choice, at, fmt::format("`{}` is no format of a sheet", sheet.format), "write one of " + listed(known));
}

std::vector<std::string> sheet_words() {
  std::vector<std::string> words{"module", "codes", "drain-like-pilot"};
  for (const std::string_view word : sheet_texts) words.emplace_back(word);
  return words;
}

std::string rest_as_text(Cursor& cursor) {
  if (cursor.at(TermKind::text)) return take_text(cursor);
  std::string text;
  while (!cursor.done() && !cursor.at(TermKind::block) && !cursor.at(TermKind::text))
    text += (text.empty() ? "" : " ") + std::string(cursor.take().text);
  return text;
}

void read_sheet_item(Reading& reading, Cursor& cursor, SheetData& sheet) {
  const Term word = cursor.peek();
  if (cursor.take_word("module")) {
    if (const auto module = read_quantity(reading, cursor, dimension::length, "`module`")) sheet.module_mm = module->si * 1000;
  } else if (cursor.take_word("codes")) {
    sheet.codes_2012 = rest_as_text(cursor) == "2012";
  } else if (cursor.take_word("drain-like-pilot")) {
    sheet.drain_like_pilot = true;
  } else if (std::find(std::begin(sheet_texts), std::end(sheet_texts), word.text) != std::end(sheet_texts) && word.kind == TermKind::word) {
    cursor.take();
    const std::string text = rest_as_text(cursor);
    if (text.empty())
      reading.report(fault::value_missing, word.span, fmt::format("`{}` needs a text", word.text), fmt::format("write `{} \"...\"`", word.text));
    else sheet.texts[std::string(word.text)] = text;
  } else if (word.kind != TermKind::broken) {
    const std::vector<std::string> known = sheet_words();
    reading.report(fault::unknown_fact, cursor.here(), fmt::format("`{}` is nothing that a sheet says", reading.text(cursor.here())),
                   write_instead(word.text, known, "write one of " + listed(known)));
    return cursor.skip_all();
  }
  used_up(reading, cursor, fmt::format("`{}`", word.text));
}

// ---------------------------------------------------------------- place

constexpr std::string_view relations[] = {"left of", "right of", "above", "below", "same row as", "same column as", "on sheet", "on rail", "in trough", "by marks"};

std::string take_relation(Cursor& cursor) {
  std::string relation;
  while (!cursor.done() && cursor.at(TermKind::word)) {
    relation += (relation.empty() ? "" : " ") + std::string(cursor.take().text);
    if (std::find(std::begin(relations), std::end(relations), relation) != std::end(relations)) return relation;
  }
  return {};
}

void report_relation(Reading& reading, Span at) {
  std::vector<std::string> known(std::begin(relations), std::end(relations));
  reading.report(fault::word_expected, at, "`place` needs where the part stands", "write one of " + listed(known) + ", as `place 1A1 left of 2A1`");
}

// `ISO VG 46`, `VG 46`, `46`; a grade of other words would be no viscosity, in silence.
bool is_grade(std::string_view text) {
  for (const std::string_view word : {"ISO ", "VG "})
    if (text.starts_with(word)) text.remove_prefix(word.size());
  return !text.empty() && text.find_first_not_of("0123456789.") == std::string_view::npos;
}

void check_grade(Reading& reading, const FactsText& text) {
  for (const FactValue& fact : text.facts)
    if (!text.unclear && fact.name == "grade" && !is_grade(fact.word))
      reading.report(fault::unknown_choice, fact.span, fmt::format("`{}` is no viscosity grade (ISO 3448)", fact.word), "write `grade ISO VG 46`");
}

}  // namespace

void read_circuit(Reading& reading, const Statement& statement, Circuit& circuit) {
  Cursor cursor(*statement.tree, *statement.item);
  cursor.take();
  if (!circuit.title.empty())
    reading.report(fault::fact_twice, statement.span(), "the text holds two circuits", "write one circuit to a file");
  if (cursor.at(TermKind::text)) circuit.title = take_text(cursor);
  else {
    reading.report(fault::word_expected, cursor.here(), "`circuit` needs a title in quotes", "write `circuit \"what it is for\"`");
    while (!cursor.done() && !cursor.at(TermKind::block)) cursor.take();
  }
  if (const Block* block = cursor.take_block()) {
    FactsText text = read_facts(reading, cursor.tree(), *block, {circuit_facts()});
    circuit.purpose = std::move(text.prose);
    circuit.facts = std::move(text.facts);
  }
  used_up(reading, cursor, "the circuit's block");
}

void read_sheet(Reading& reading, const Statement& statement, Circuit& circuit) {
  Cursor cursor(*statement.tree, *statement.item);
  cursor.take();
  circuit.sheet.span = statement.span();
  if (cursor.at(TermKind::word)) read_format(reading, cursor, circuit.sheet);
  if (const Block* block = cursor.take_block())
    each_item(cursor.tree(), *block, [&](Cursor& item) { read_sheet_item(reading, item, circuit.sheet); });
  used_up(reading, cursor, "the sheet's block");
}

void read_fluid(Reading& reading, const Statement& statement, Circuit& circuit) {
  Cursor cursor(*statement.tree, *statement.item);
  cursor.take();
  Fluid fluid;
  fluid.span = statement.span();
  const auto kind = want_word(reading, cursor, "`fluid`", "its kind", "fluid mineral-oil { grade ISO VG 46 }");
  if (!kind) return;
  fluid.kind = *kind;
  fluid.tag = take_name(cursor);
  fluid.description = take_text(cursor);
  if (const Block* block = cursor.take_block()) {
    FactsText text = read_facts(reading, cursor.tree(), *block, {fluid_facts()});
    check_grade(reading, text);
    fluid.facts = std::move(text.facts);
    if (fluid.description.empty()) fluid.description = std::move(text.prose);
  }
  used_up(reading, cursor, "the fluid's block");
  circuit.fluids.push_back(std::move(fluid));
}

void read_tie(Reading& reading, const Statement& statement, Circuit& circuit) {
  Cursor cursor(*statement.tree, *statement.item);
  cursor.take();
  const auto name = want_name(reading, cursor, "`tie`", "a name", "tie lift { C1, C2 }");
  if (!name) return;
  std::vector<PartId> parts;
  FactsText facts;
  if (const Block* block = want_block(reading, cursor, "`tie`", "tie " + *name + " { C1, C2 }"))
    each_item(cursor.tree(), *block, [&](Cursor& item) {
      if (item.left() > 1 || item.at(TermKind::text)) return read_fact_item(reading, item, {tie_facts()}, facts);
      const Span at = item.here();
      if (const std::string tag = take_name(item); !tag.empty())
        if (const PartId part = part_tagged(reading, circuit, tag, at)) parts.push_back(part);
    });
  circuit.ties.push_back(std::move(parts));
  circuit.tie_names.push_back(*name);
  circuit.tie_facts.push_back(std::move(facts.facts));
  used_up(reading, cursor, "the block of a tie");
}

void read_place(Reading& reading, const Statement& statement, Circuit& circuit) {
  Cursor cursor(*statement.tree, *statement.item);
  cursor.take();
  PlaceHint hint;
  hint.span = statement.span();
  const Span at = cursor.here();
  const auto tag = want_name(reading, cursor, "`place`", "the tag of a part", "place 1A1 left of 2A1");
  if (!tag || !part_tagged(reading, circuit, *tag, at)) return;
  const Span where = cursor.here();
  const std::string relation = take_relation(cursor);
  if (relation.empty()) return report_relation(reading, where);
  hint.words = {*tag, relation};
  const Span other_at = cursor.here();
  if (const std::string other = take_name(cursor); !other.empty()) {
    if (relation != "on sheet" && !part_tagged(reading, circuit, other, other_at)) return;
    hint.words.push_back(other);
  }
  used_up(reading, cursor, "the place of a part");
  circuit.hints.push_back(std::move(hint));
}

}  // namespace ferrule
