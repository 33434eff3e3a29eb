// `accept tank-too-small on 0Z1 because "runs four hours a day" { by "plant safety", date 2026-03-01, until 2027-03-01 }`
#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

constexpr std::string_view example = "accept tank-too-small on 0Z1 because \"runs four hours a day\"";

std::string take_date(WorkReading& work, Cursor& cursor, std::string_view after) {
  if (const Term* date = cursor.take_kind(TermKind::date)) return std::string(date->text);
  work.reading.report(fault::word_expected, cursor.here(), 
                      cursor.done() ? fmt::format("`{}` needs a date", after)
                                    : fmt::format("`{}` is no date: year, month and day stand with hyphens between", work.reading.text(cursor.rest())),
                      fmt::format("write `{} 2026-03-01`", after));
  cursor.skip_all();
  return {};
}

void read_fact(WorkReading& work, Cursor& cursor, Accept& accept) {
  if (cursor.take_word("by")) {
    accept.by = take_text(cursor);
  } else if (cursor.take_word("date")) {
    accept.date = take_date(work, cursor, "date");
  } else if (cursor.take_word("until")) {
    accept.until = take_date(work, cursor, "until");
  } else {
    const std::string word(work.reading.text(cursor.here()));
    work.reading.report(fault::work_word_unknown, cursor.here(), fmt::format("`{}` is nothing an exception says", word),
                        write_instead(word, {"by", "date", "until"}, "write `by`, `date` or `until`"));
    cursor.skip_all();
  }
}

// A tag, a port, a line by its tag; `circuit` for the whole.
bool is_known_subject(WorkReading& work, std::string_view name, Span span) {
  if (name == "circuit" || split_at_tag(work.circuit, name).part || is_step(work.circuit, name)) return true;
  return subject_named(work, name, span).kind != Subject::Kind::unknown;
}

bool want(WorkReading& work, Cursor& cursor, std::string_view word, std::string_view why) {
  if (cursor.take_word(word)) return true;
  work.reading.report(fault::word_expected, cursor.here(), std::string(why), fmt::format("write `{}`", example));
  cursor.skip_all();
  return false;
}

}  // namespace

void read_accept(WorkReading& work, Cursor& cursor) {
  Accept accept;
  accept.span = cursor.whole();
  cursor.take();
  const auto rule = want_word(work.reading, cursor, "`accept`", "the rule whose finding is accepted", example);
  if (!rule || !want(work, cursor, "on", "`accept` needs the part that the finding is about")) return;
  accept.rule = *rule;
  const Span span = cursor.here();
  const auto subject = want_word(work.reading, cursor, "`on`", "the tag that the finding names", example);
  if (!subject) return;
  accept.subject = *subject;
  const bool known = is_known_subject(work, *subject, span);
  if (!want(work, cursor, "because", "`accept` needs the reason, so that a reader can judge it")) return;
  accept.reason = take_text(cursor);
  if (accept.reason.empty()) {
    work.reading.report(fault::word_expected, cursor.rest(), "`because` needs the reason in quotes", fmt::format("write `{}`", example));
    while (!cursor.done() && !cursor.at(TermKind::block)) cursor.take();
  }
  while (cursor.at_word("by") || cursor.at_word("date") || cursor.at_word("until")) read_fact(work, cursor, accept);
  if (const Block* block = cursor.take_block())
    each_item(cursor.tree(), *block, [&](Cursor& item) {
      read_fact(work, item, accept);
      used_up(work.reading, item, "this part of the exception");
    });
  used_up(work.reading, cursor, "the exception");
  if (known) work.circuit.accepts.push_back(std::move(accept));
}

}  // namespace ferrule
