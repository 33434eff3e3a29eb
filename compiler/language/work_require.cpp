// `require 1A1.speed at most 0.3 m/s during press and open while PS1 above 120 bar`, and questions for a class.
#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/results.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

constexpr std::string_view example = "require 1A1.speed at most 0.3 m/s during press";

std::string step_named(WorkReading& work, Cursor& cursor, std::string_view after) {
  const Span span = cursor.here();
  const auto name = want_name(work.reading, cursor, after, "a step", example);
  if (!name) return {};
  if (is_step(work.circuit, *name)) return *name;
  if (!work.reading.names_missing && !steps_are_lost(work))
    work.reading.report(fault::unknown_step, span, fmt::format("the cycle has no step `{}`", *name),
                        write_instead(*name, step_names(work.circuit), "name a step of the cycle"));
  cursor.skip_all();
  return {};
}

std::string read_steps(WorkReading& work, Cursor& cursor) {
  std::string steps = step_named(work, cursor, "`during`");
  while (cursor.take_word("and")) steps += " and " + step_named(work, cursor, "`and`");
  return steps;
}

// `from press until open`: steps, or moments in quotes.
std::string read_moment(WorkReading& work, Cursor& cursor, std::string_view after) {
  return cursor.at(TermKind::text) ? take_text(cursor) : step_named(work, cursor, after);
}

// ---------------------------------------------------------------- while

bool is_comparing(const Cursor& cursor) {
  return cursor.at_word("above", 1) || cursor.at_word("below", 1) || (cursor.at_word("at", 1) && (cursor.at_word("most", 2) || cursor.at_word("least", 2)));
}

std::string take_comparison(Cursor& cursor) {
  if (cursor.take_word("above")) return "at least";
  if (cursor.take_word("below")) return "at most";
  cursor.take_word("at");
  return "at " + std::string(cursor.take().text);
}

// `PS1 above 120 bar`: a switch or gauge stands for the pressure it feels.
bool read_bound(WorkReading& work, Cursor& cursor, Requirement& requirement) {
  Requirement::Bound bound;
  const bool is_result = cursor.peek().text.find('.') != std::string_view::npos;
  Address address{{}, dimension::pressure, dimension::pressure};
  if (is_result) {
    const auto said = read_address(work, cursor, "`while`");
    if (!said) return false;
    address = *said;
  } else {
    const Subject subject = take_subject(work, cursor, "`while`");
    if (subject.kind == Subject::Kind::unknown) return false;
    address.segments = {subject.name, "pressure"};
  }
  bound.address = address.segments;
  bound.comparison = take_comparison(cursor);
  const auto value = read_result_value(work, cursor, address);
  if (!value) return false;
  bound.value = *value;
  requirement.bounds.push_back(std::move(bound));
  return true;
}

void read_while(WorkReading& work, Cursor& cursor, Requirement& requirement) {
  const std::size_t mark = cursor.mark();
  do {
    if (is_comparing(cursor)) {
      if (!read_bound(work, cursor, requirement)) return cursor.skip_all();
    } else if (const auto term = read_term(work, cursor, "`while`")) {
      requirement.conditions.push_back(*term);
    } else {
      return cursor.skip_all();
    }
  } while (cursor.take_word("and"));
  requirement.while_ = std::string(work.reading.text(cursor.since(mark)));
}

// ---------------------------------------------------------------- comparison

bool add_value(WorkReading& work, Cursor& cursor, const Address& address, Requirement& requirement) {
  const auto value = read_result_value(work, cursor, address);
  if (value) requirement.values.push_back(*value);
  return value.has_value();
}

bool read_between(WorkReading& work, Cursor& cursor, const Address& address, Requirement& requirement) {
  requirement.comparison = "between";
  if (!add_value(work, cursor, address, requirement)) return false;
  if (!cursor.take_word("and")) {
    work.reading.report(fault::word_expected, cursor.here(), "`between` needs two values", "write `between 5 and 7 s`");
    return false;
  }
  if (!add_value(work, cursor, address, requirement)) return false;
  if (requirement.values[0].si > requirement.values[1].si) std::swap(requirement.values[0], requirement.values[1]);
  return true;
}

// `12 L/min within 3 %`, also `within 0.5 L/min`
bool read_within(WorkReading& work, Cursor& cursor, const Address& address, Requirement& requirement) {
  requirement.comparison = "is";
  if (!add_value(work, cursor, address, requirement)) return false;
  if (!cursor.take_word("within")) return true;
  requirement.comparison = "within";
  const std::size_t mark = cursor.mark();
  const auto tolerance = read_any_quantity(work.reading, cursor, "the tolerance");
  if (!tolerance) return false;
  if (tolerance->dimension == dimension::none || tolerance->dimension == requirement.values[0].dimension) {
    requirement.values.push_back(*tolerance);
    return true;
  }
  work.reading.report(fault::dimension_wrong, cursor.since(mark), "a tolerance is a percentage or a value of the same kind", "write `within 3 %`");
  return false;
}

bool read_comparison(WorkReading& work, Cursor& cursor, const Address& address, Requirement& requirement) {
  if (cursor.at_word("at") && (cursor.at_word("most", 1) || cursor.at_word("least", 1))) {
    cursor.take();
    requirement.comparison = "at " + std::string(cursor.take().text);
    return add_value(work, cursor, address, requirement);
  }
  if (cursor.take_word("between")) return read_between(work, cursor, address, requirement);
  const bool value_next = cursor.take_word("is") || cursor.at(TermKind::number) || cursor.at_sign("(");
  if (value_next) return read_within(work, cursor, address, requirement);
  work.reading.report(fault::word_expected, cursor.here(),
                      fmt::format("what `{}` is compared with is not said", fmt::join(address.segments, ".")),
                      "write `at most`, `at least`, `between ... and ...` or `... within 3 %`");
  return false;
}

void read_clauses(WorkReading& work, Cursor& cursor, Requirement& requirement) {
  while (!cursor.done()) {
    if (cursor.take_word("during")) {
      requirement.during = read_steps(work, cursor);
    } else if (cursor.take_word("from")) {
      requirement.from = read_moment(work, cursor, "`from`");
      if (cursor.take_word("until")) requirement.to = read_moment(work, cursor, "`until`");
    } else if (cursor.take_word("while")) {
      read_while(work, cursor, requirement);
    } else {
      return;
    }
  }
}

// ---------------------------------------------------------------- questions

void read_question_item(WorkReading& work, Cursor& cursor, Question& question) {
  if (cursor.take_word("answer")) {
    question.answer = take_text(cursor);
  } else if (cursor.take_word("tolerance")) {
    question.tolerance = read_quantity(work.reading, cursor, dimension::none, "the tolerance").value_or(Quantity{}).si;
  } else if (cursor.take_word("marks")) {
    question.marks = static_cast<int>(read_quantity(work.reading, cursor, dimension::none, "the marks").value_or(Quantity{}).si);
  } else if (cursor.take_word("result")) {
    const std::size_t mark = cursor.mark();
    if (!read_address(work, cursor, "`result`")) return;
    if (cursor.take_word("during") && read_steps(work, cursor).empty()) return;
    question.result = std::string(work.reading.text(cursor.since(mark)));
  } else {
    const std::string word(work.reading.text(cursor.here()));
    work.reading.report(fault::work_word_unknown, cursor.here(), fmt::format("`{}` is nothing a question says", word),
                        write_instead(word, {"result", "answer", "tolerance", "marks"}, "write `result`, `answer`, `tolerance` or `marks`"));
    cursor.skip_all();
  }
  used_up(work.reading, cursor, "this part of the question");
}

}  // namespace

void read_requirement(WorkReading& work, Cursor& cursor) {
  Requirement requirement;
  requirement.span = cursor.whole();
  cursor.take();
  const std::size_t before = work.reading.messages.size();
  const auto address = read_address(work, cursor, "`require`");
  if (!address) return;
  requirement.address = address->segments;
  if (!read_comparison(work, cursor, *address, requirement)) return;
  read_clauses(work, cursor, requirement);
  used_up(work.reading, cursor, "this requirement");
  if (work.reading.messages.size() == before) work.circuit.requirements.push_back(std::move(requirement));
}

void read_question(WorkReading& work, Cursor& cursor) {
  Question question;
  question.span = cursor.whole();
  cursor.take();
  if (!cursor.at(TermKind::text)) {
    work.reading.report(fault::word_expected, cursor.here(), "`ask` needs the question in quotes", "write `ask \"Which valve limits the pressure?\" { answer \"0V1\" }`");
    return;
  }
  question.text = take_text(cursor);
  if (const Block* block = cursor.take_block())
    each_item(cursor.tree(), *block, [&](Cursor& item) { read_question_item(work, item, question); });
  used_up(work.reading, cursor, "the question");
  work.circuit.questions.push_back(std::move(question));
}

}  // namespace ferrule
