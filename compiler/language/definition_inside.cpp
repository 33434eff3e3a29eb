// `inside { pressure-path main P > T { senses P less T, cracking, full-flow } when bypass }`
#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/definition_reading.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"

namespace ferrule {
namespace {

struct ElementReading {
  DefinitionReading& made;
  ElementSpec& element;
};

bool is_end_word(std::string_view word) { return word == "excess" || word == "case" || word == "and"; }

// Ends by `>` or `-`, a further one behind its word: `IN > OUT excess T`, `S > P case L`. `none` is an absent end.
void read_ends(ElementReading& in, Cursor& cursor) {
  bool wanted = true;
  while (!cursor.done()) {
    if (cursor.at_sign(">") || cursor.at_sign("-")) {
      if (wanted && in.element.ends.empty()) in.element.ends.push_back({"", cursor.here()});
      cursor.take();
      wanted = true;
      continue;
    }
    if (cursor.at_word("when") || cursor.at_word("in") || !(cursor.at(TermKind::word) || cursor.at(TermKind::number))) return;
    if (is_end_word(cursor.peek().text)) {
      cursor.take();
      continue;
    }
    const Term& end = cursor.take();
    in.element.ends.push_back({end.text == "none" ? std::string{} : std::string(end.text), end.span});
    wanted = false;
  }
}

void read_senses(ElementReading& in, Cursor& cursor) {
  double sign = 1;
  do {
    ElementSpec::SenseSpec sense;
    sense.node = take_name(cursor);
    sense.sign = sign;
    if (cursor.take_word("times")) sense.weight = take_formula(cursor);
    if (sense.node.empty()) return (void)in.made.report(cursor.here(), "`senses` needs a port or an inner node", "write `senses P less T`");
    in.element.senses.push_back(std::move(sense));
    sign = cursor.at_word("less") ? -1 : 1;
  } while (cursor.take_word("and") || cursor.take_word("less"));
}

std::vector<std::string> words_of(const ElementInfo& info) {
  std::vector<std::string> words{"senses"};
  for (const Parameter id : info.parameters)
    for (const ParameterInfo& parameter : parameters())
      if (parameter.id == id) words.emplace_back(parameter.word);
  for (const std::string_view flag : info.flags) words.emplace_back(flag);
  return words;
}

bool understands(const ElementInfo& info, Parameter id) {
  return std::find(info.parameters.begin(), info.parameters.end(), id) != info.parameters.end();
}

// `at 20 L/min` fills the parameter that belongs to the pair: drop and drop-flow, full-flow and full-flow-flow.
void read_setting(ElementReading& in, Cursor& cursor, std::string_view word, Parameter id) {
  ElementSpec::Setting setting{id, {}};
  if (!cursor.done()) setting.value = take_formula(cursor);
  in.element.settings.push_back(setting);
  if (!cursor.take_word("at")) return;
  const auto at = parameter_named(std::string(word) + "-flow");
  if (!at) return (void)in.made.report(cursor.here(), fmt::format("`{}` is no pair with a flow", word), "leave out what follows `at`");
  in.element.settings.push_back({*at, take_formula(cursor)});
}

void read_element_word(ElementReading& in, Cursor& cursor) {
  const ElementInfo& info = info_of(in.element.kind);
  const Term& term = cursor.peek();
  if (cursor.take_word("senses")) return read_senses(in, cursor);
  const std::string_view word = term.kind == TermKind::word ? term.text : std::string_view{};
  const auto id = parameter_named(word);
  const bool flag = std::find(info.flags.begin(), info.flags.end(), word) != info.flags.end();
  if (flag) {
    in.element.flags.emplace_back(word);
    cursor.take();
  } else if (id && understands(info, *id)) {
    cursor.take();
    read_setting(in, cursor, word, *id);
  } else if (term.kind != TermKind::broken) {
    in.made.report(cursor.here(), fmt::format("`{}` is nothing that {} understands", in.made.reading.text(cursor.here()), info.word),
                   write_instead(word, words_of(info), "write " + listed(words_of(info))));
    cursor.skip_all();
  }
}

void read_conditions(ElementReading& in, Cursor& cursor) {
  if (cursor.take_word("in")) in.element.positions = take_names(cursor);
  if (!cursor.take_word("when")) return;
  do {
    const bool absent = cursor.take_word("not");
    in.element.when.push_back((absent ? "not " : "") + take_name(cursor));
  } while (cursor.take_word("and"));
}

void check_end_count(ElementReading& in, Span at) {
  const ElementInfo& info = info_of(in.element.kind);
  const int count = static_cast<int>(in.element.ends.size());
  if (count >= info.least_ends && count <= info.most_ends) return;
  in.made.report(at, fmt::format("{} joins {}; {} given", info.word, info.ends.empty() ? "nothing" : info.ends,
                                 count == 0 ? "none" : std::to_string(count)),
                 fmt::format("write `{} NAME {}`", info.word, info.ends));
}

std::vector<std::string> element_words() {
  std::vector<std::string> words;
  for (const ElementInfo& info : element_kinds()) words.emplace_back(info.word);
  return words;
}

void read_element(DefinitionReading& made, Cursor& cursor) {
  ElementSpec element;
  element.span = cursor.whole();
  const Term& word = cursor.peek();
  const auto kind = word.kind == TermKind::word ? element_named(word.text) : std::nullopt;
  if (!kind) {
    if (word.kind != TermKind::broken)
      made.report(cursor.here(), fmt::format("`{}` is no physical element", made.reading.text(cursor.here())),
                  write_instead(word.text, element_words(), "write one of " + listed(element_words())));
    return;
  }
  element.kind = *kind;
  cursor.take();
  ElementReading in{made, element};
  // The name may be left out where the element has one end or none: `dead-end P`.
  const bool unnamed = cursor.left() > 0 && info_of(*kind).least_ends == 1 && info_of(*kind).most_ends <= 2 &&
                       !cursor.at(TermKind::word, 1) && !cursor.at(TermKind::number, 1) && !cursor.at_sign("-", 1);
  element.name = unnamed ? std::string(word.text) : take_name(cursor);
  read_ends(in, cursor);
  read_conditions(in, cursor);
  if (const Block* block = cursor.take_block())
    each_item(cursor.tree(), *block, [&](Cursor& item) {
      read_element_word(in, item);
      used_up(made.reading, item, "a setting of an element");
    });
  read_conditions(in, cursor);
  check_end_count(in, element.span);
  used_up(made.reading, cursor, "an element");
  const auto same = std::find_if(made.definition.elements.begin(), made.definition.elements.end(),
                                 [&](const ElementSpec& e) { return e.name == element.name && e.when == element.when; });
  if (same != made.definition.elements.end()) *same = std::move(element);
  else made.definition.elements.push_back(std::move(element));
}

}  // namespace

void read_inside(DefinitionReading& made, Cursor& cursor) {
  if (cursor.take_word("nothing")) return made.definition.elements.clear();
  if (const Block* block = want_block(made.reading, cursor, "`inside`", "inside { pressure-path main P > T { cracking } }"))
    each_item(cursor.tree(), *block, [&](Cursor& item) { read_element(made, item); });
}

}  // namespace ferrule
