#include "compiler/language/fact_values.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

struct ValueReading {
  Reading& reading;
  Cursor& cursor;
  const FactSpec& spec;
  FactValue& fact;
  std::string purpose;  // "`rated`"
};

bool read_flag(ValueReading&) { return true; }

bool read_one(ValueReading& in) {
  const auto value = read_quantity(in.reading, in.cursor, in.spec.dimension, in.purpose);
  if (value) in.fact.numbers = {*value};
  return value.has_value();
}

bool read_pair(ValueReading& in) {
  const std::size_t mark = in.cursor.mark();
  if (!read_one(in)) return false;
  if (!in.cursor.take_word("at")) {
    if (in.spec.at_may_miss) return true;
    in.reading.report(fault::value_missing, in.cursor.here(),
                      fmt::format("{} is a point of a curve: it needs the {} that belongs to it", in.purpose, name_of(in.spec.at)),
                      fmt::format("write `{} {} at {}`", in.spec.name, in.reading.text(in.cursor.since(mark)), example_of(in.spec.at)));
    in.cursor.skip_all();
    return false;
  }
  const auto at = read_quantity(in.reading, in.cursor, in.spec.at, in.purpose + " behind `at`");
  if (at) in.fact.numbers.push_back(*at);
  return at.has_value();
}

// `0 - 250 bar`, `0-250 bar`
bool is_range_with_dash(const Cursor& cursor) {
  const std::size_t unit = cursor.at(TermKind::word, 1) ? 1 : 0;
  return cursor.at(TermKind::number) && (cursor.at_sign("-", 1 + unit) || (cursor.at(TermKind::number, 1 + unit) && cursor.peek(1 + unit).text.starts_with('-')));
}

bool read_range(ValueReading& in) {
  if (is_range_with_dash(in.cursor)) {
    in.reading.report(fault::word_expected, in.cursor.rest(), "a range is written with `to`; `-` would subtract",
                      fmt::format("write `{} 0 to {}`", in.spec.name, example_of(in.spec.dimension)));
    in.cursor.skip_all();
    return false;
  }
  const auto values = read_quantities(in.reading, in.cursor, "to", in.spec.dimension, in.purpose);
  if (!values) return false;
  in.fact.numbers = *values;
  if (values->size() == 2 && (*values)[0].si <= (*values)[1].si) return true;
  in.reading.report(fault::value_missing, in.cursor.done() ? in.cursor.whole() : in.cursor.here(),
                    "a range runs from a lower to a higher value",
                    fmt::format("write `{} 0 to {}`", in.spec.name, example_of(in.spec.dimension)));
  return false;
}

bool read_list(ValueReading& in) {
  const auto values = read_quantities(in.reading, in.cursor, "and", in.spec.dimension, in.purpose);
  if (values) in.fact.numbers = *values;
  return values.has_value();
}

bool read_choice(ValueReading& in) {
  const Span at = in.cursor.here();
  in.fact.word = take_name(in.cursor);
  if (std::find(in.spec.choices.begin(), in.spec.choices.end(), in.fact.word) != in.spec.choices.end()) return true;
  in.reading.report(fault::unknown_choice, at,
                    in.fact.word.empty() ? fmt::format("{} needs one of its words", in.purpose)
                                         : fmt::format("{} is not `{}`", in.purpose, in.fact.word),
                    write_instead(in.fact.word, in.spec.choices, "write " + listed(in.spec.choices)));
  in.cursor.skip_all();
  return false;
}

// A quoted text, a date, or words as `ISO VG 46`.
bool read_text(ValueReading& in) {
  if (in.cursor.at(TermKind::text)) {
    in.fact.word = take_text(in.cursor);
    return true;
  }
  while (!in.cursor.done() && !in.cursor.at(TermKind::block)) {
    const Term& term = in.cursor.take();
    if (term.kind == TermKind::broken) return false;
    if (!in.fact.word.empty()) in.fact.word += ' ';
    in.fact.word += term.kind == TermKind::text ? unescaped(term) : std::string(term.text);
  }
  if (!in.fact.word.empty()) return true;
  in.reading.report(fault::value_missing, in.cursor.here(), fmt::format("{} needs a text", in.purpose), "write it in quotes behind the word");
  return false;
}

bool read_tag(ValueReading& in) {
  if (in.cursor.at_word(in.spec.name) && in.cursor.left() > 1) {
    in.reading.report(fault::words_left_over, in.cursor.here(), fmt::format("{} stands twice", in.purpose), "leave one of them out");
    in.cursor.take();
  }
  const auto tag = want_name(in.reading, in.cursor, in.purpose, "the tag of a part", in.spec.name + " 0M1");
  if (tag) in.fact.word = *tag;
  return tag.has_value();
}

constexpr bool (*readers[])(ValueReading&) = {read_one, read_pair, read_range, read_flag, read_choice, read_text, read_tag, read_list};
static_assert(static_cast<std::size_t>(FactKind::list) + 1 == std::size(readers));

std::string without_blanks(std::string_view text) {
  std::string plain;
  for (const char c : text)
    if (c != ' ') plain += c;
  return plain;
}

// `cracking = 150 bar`: told, and the value is read.
void skip_sign(ValueReading& in) {
  if (!in.cursor.at_sign("=") && !in.cursor.at_sign(":")) return;
  const Span at = in.cursor.here();
  const std::string sign(in.cursor.take().text);
  in.reading.report(fault::words_left_over, at, fmt::format("no `{}` stands between {} and its value", sign, in.purpose),
                    fmt::format("write `{} {}`", in.spec.name, in.reading.text(in.cursor.rest())));
}

// `pushing in`, `turning A>B`: the words that follow the value.
bool take_phrase(Cursor& cursor, const std::string& phrase) {
  const std::size_t mark = cursor.mark();
  const std::string wanted = without_blanks(phrase);
  std::string taken;
  while (taken.size() < wanted.size() && !cursor.done() && !cursor.at(TermKind::block)) taken += cursor.take().text;
  if (taken == wanted) return true;
  cursor.back_to(mark);
  return false;
}

bool read_words_behind(ValueReading& in) {
  if (in.spec.then.empty()) return true;
  for (const std::string& phrase : in.spec.then)
    if (take_phrase(in.cursor, phrase)) {
      in.fact.word = phrase;
      return true;
    }
  if (in.spec.kind == FactKind::flag) return true;
  in.reading.report(fault::word_expected, in.cursor.here(), fmt::format("{} needs its sense behind the value", in.purpose),
                    "write " + listed(in.spec.then) + " behind it");
  in.cursor.skip_all();
  return false;
}

}  // namespace

bool read_fact_value(Reading& reading, Cursor& cursor, const FactSpec& spec, FactValue& fact) {
  fact.kind = spec.kind;
  ValueReading in{reading, cursor, spec, fact, "`" + spec.name + "`"};
  skip_sign(in);
  return readers[static_cast<std::size_t>(spec.kind)](in) && read_words_behind(in);
}

namespace {

// Of any dimension, the second value of a pair too: `160 bar at 1e300 L/min`.
bool within_bounds(Reading& reading, const FactValue& fact) {
  for (const Quantity& number : fact.numbers) {
    const auto bounds = bounds_of(number.dimension);
    if (!bounds || (number.si >= bounds->low && number.si <= bounds->high)) continue;
    const bool low = number.si < bounds->low;
    reading.report(fault::out_of_limits, fact.span,
                   fmt::format("`{}` is {} {}, the {} that is computed with", reading.text(fact.span), low ? "below" : "above",
                               shown({low ? bounds->low : bounds->high, number.dimension}), low ? "least" : "most"),
                   "look at the unit and the digits");
    return false;
  }
  return true;
}

}  // namespace

bool within_limits(Reading& reading, const FactSpec& spec, const FactValue& fact) {
  for (const Quantity& number : fact.numbers) {
    if (number.dimension != spec.dimension) continue;
    const bool low = spec.low && number.si < *spec.low, high = spec.high && number.si > *spec.high;
    if (!low && !high) continue;
    const double limit = low ? *spec.low : *spec.high;
    // A share is written in per cent, so its limit is told so.
    const bool share = spec.dimension == dimension::none && reading.text(fact.span).ends_with('%');
    reading.report(fault::out_of_limits, fact.span,
                   fmt::format("`{}` is {} {}, the {} that its definition allows", reading.text(fact.span), low ? "below" : "above",
                               share ? fmt::format("{:g} %", limit * 100) : shown({limit, spec.dimension}), low ? "least" : "most"),
                   "look at the unit and the digits");
    return false;
  }
  return within_bounds(reading, fact);
}

}  // namespace ferrule
