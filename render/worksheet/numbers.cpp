// Results to compute, with their working from the same place that reports take it from; and the questions that the text asks.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compiler/figures/board.hpp"
#include "render/worksheet/mistakes.hpp"
#include "render/worksheet/question.hpp"

namespace ferrule::worksheet {
namespace {

using working::Value;
using working::Worked;

constexpr double usual_tolerance = 0.05;
constexpr double room_for_a_line = 9, least_room = 20;  // mm of handwriting

std::size_t lines_worked_out(const Worked& worked) {
  return static_cast<std::size_t>(std::count_if(worked.values.begin(), worked.values.end(), [](const Value& v) { return !v.formula.empty(); }));
}

// What is not worked out here is given: symbol, meaning, number.
pages::Table given_in(const handout::Lesson& lesson, const Worked& worked) {
  pages::Table table{{{lesson.say("ask.symbol"), true}, {lesson.say("ask.given")}, {lesson.say("ask.value")}}, {}};
  for (const Value& value : worked.values)
    if (value.formula.empty() && value.si) table.rows.push_back({cell(value.symbol), cell(value.meaning), cell(working::shown(value))});
  table.with_next = true;
  return table;
}

// What is worked out, line by line, with the numbers put in; a result that the balance of the circuit gives, with that reason.
pages::Table working_of(const handout::Lesson& lesson, const Worked& worked) {
  const Phrases& say = lesson.say;
  pages::Table table{{{say("ask.symbol"), true}, {say("ask.meaning")}, {say("ask.formula")}, {say("ask.numbers")}, {say("ask.value")}}, {}};
  for (const Value& value : worked.values) {
    const bool is_given = value.formula.empty();
    if (is_given && &value != &worked.result()) continue;
    table.rows.push_back({cell(value.symbol), cell(value.meaning), cell(is_given ? value.origin : value.formula),
                          cell(is_given ? "" : working::numbers_put_in(worked, value)), cell(working::shown(value))});
  }
  return table;
}

void put_mistakes(const handout::Lesson& lesson, const Worked& worked, double tolerance, Question& question) {
  for (const Mistake& mistake : mistakes_in(worked, tolerance))
    question.working.push_back(pages::Paragraph{lesson.say("wrong.answer", {working::shown(mistake.answer), lesson.say(mistake.phrase)}), "!"});
}

// Room to work and a place for the result; on the key the working stands below.
void put_calculation(const handout::Lesson& lesson, const Worked& worked, double tolerance, Question& question) {
  pages::Table table{{{lesson.say("ask.working"), false, 110}, {lesson.say("ask.number-and-unit"), true, 45}}, {}};
  table.least_row = std::max(least_room, room_for_a_line * static_cast<double>(lines_worked_out(worked)));
  table.rows.push_back({cell(""), cell(working::shown(worked.result()))});
  put_table(question, std::move(table), {1});
  question.solved.back() = working_of(lesson, worked);
  question.address = worked.address + (worked.state.empty() ? "" : ", " + worked.state);
  question.result = working::shown(worked.result());
  question.working.push_back(pages::Paragraph{lesson.say("ask.tolerance", {fmt::format("{:g} %", 100 * tolerance)}), "-"});
  put_mistakes(lesson, worked, tolerance, question);
}

double marks_for(const Worked& worked) { return static_cast<double>(std::clamp<std::size_t>(1 + lines_worked_out(worked), 2, 4)); }

std::string during(const handout::Lesson& lesson, const Worked& worked) {
  const auto state = worked.state.empty() ? std::nullopt : lesson.book.state_named(worked.state);
  return state ? handout::name_of(lesson, lesson.book.states[*state]) : lesson.say("ask.cycle");
}

constexpr double still = 1e-9;   // m3/s: less is rounding

// A nil, and what a line comes to in which nothing flows, asks nothing.
bool is_worth_a_number(const Worked& worked) {
  const std::string shown = working::shown(worked.result());
  const bool is_number = worked.result().si && !shown.starts_with("0 ") && !shown.starts_with("-0 ") && shown != "0";
  return is_number && std::none_of(worked.values.begin(), worked.values.end(), [](const Value& value) {
           return value.dimension == dimension::flow && value.si && std::fabs(*value.si) < still;
         });
}

// One of each word that a step gives a number and a working of at least two lines, dearest first: what is only read off asks nothing.
std::vector<Worked> worth_asking(const handout::Lesson& lesson, Chance& chance) {
  std::vector<Worked> all;
  for (const std::size_t state : lesson.book.told()) {
    if (!lesson.book.point(state).settled) continue;
    for (const working::Subject& subject : lesson.book.subjects())
      for (const std::string_view what : lesson.book.words_for(subject.kind)) {
        Worked worked = lesson.book.result(subject, what, state);
        if (is_worth_a_number(worked) && lines_worked_out(worked) >= 2 && lines_worked_out(worked) <= 5) all.push_back(std::move(worked));
      }
  }
  shuffle(all, chance);
  std::vector<Worked> one_of_each;
  for (Worked& worked : all)
    if (std::none_of(one_of_each.begin(), one_of_each.end(), [&](const Worked& other) { return other.what == worked.what; })) one_of_each.push_back(std::move(worked));
  return one_of_each;
}

}  // namespace

Questions about_numbers(const handout::Lesson& lesson, Chance& chance) {
  constexpr std::size_t most = 4;
  Questions questions;
  std::vector<Worked> asked = worth_asking(lesson, chance);
  if (asked.size() > most) asked.resize(most);
  for (const Worked& worked : asked) {
    const Value& result = worked.result();
    Question question{lesson.say("ask.compute", {worked.address, lesson.say.word("result", result.meaning), during(lesson, worked)}), {}, {}, {}, marks_for(worked), 2};
    question.asked.push_back(given_in(lesson, worked));
    question.solved.push_back(given_in(lesson, worked));
    put_calculation(lesson, worked, usual_tolerance, question);
    questions.push_back(std::move(question));
  }
  return questions;
}

namespace {

// "1A1.speed during squeeze": the working; none when the text asks for what is no result.
std::optional<Worked> result_asked(const handout::Lesson& lesson, const std::string& asked) {
  constexpr std::string_view between = " during ";
  const std::size_t at = asked.find(between);
  const std::string address = asked.substr(0, at);
  const std::size_t dot = address.rfind('.');
  if (dot == address.npos) return std::nullopt;
  const std::string what = address.substr(dot + 1);
  const auto subject = lesson.book.subject(address.substr(0, dot), what);
  const auto state = at == asked.npos ? std::optional(lesson.book.told().front()) : lesson.book.state_named(asked.substr(at + between.size()));
  if (!subject || !state) return std::nullopt;
  const auto words = lesson.book.words_for(subject->kind);
  if (std::find(words.begin(), words.end(), what) == words.end()) return std::nullopt;
  Worked worked = lesson.book.result(*subject, what, *state);
  return worked.result().si ? std::optional(std::move(worked)) : std::nullopt;
}

// Lines to write on.
pages::Figure ruled(double width) {
  constexpr double apart = 9;
  constexpr int lines = 3;
  pages::Figure figure{{}, width, apart * lines};
  for (int i = 1; i <= lines; ++i) figure.inks.push_back(sheet::line({{0, apart * i}, {width, apart * i}}, 0.25));
  return figure;
}

}  // namespace

Questions of_the_text(const handout::Lesson& lesson, std::vector<std::string>& notes) {
  Questions questions;
  for (const ferrule::Question& said : lesson.circuit().questions) {
    Question question{said.text, {}, {}, {}, said.marks > 0 ? static_cast<double>(said.marks) : 2.0, 2};
    if (!said.result.empty()) {
      const auto worked = result_asked(lesson, said.result);
      if (!worked) {
        notes.push_back(fmt::format("the question \"{}\" is left out: {} has no value to be its key", said.text, said.result));
        continue;
      }
      put_calculation(lesson, *worked, said.tolerance > 0 ? said.tolerance : usual_tolerance, question);
    } else {
      question.asked.push_back(ruled(pages::room_on(lesson.paper, false).w));
      question.solved.push_back(pages::Paragraph{said.answer.empty() ? lesson.say("ask.by-hand") : said.answer, "-"});
    }
    questions.push_back(std::move(question));
  }
  return questions;
}

}  // namespace ferrule::worksheet
