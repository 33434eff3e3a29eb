// The work cycle: its steps in order, its solenoids.
#include <algorithm>

#include "render/cycle.hpp"
#include "render/worksheet/question.hpp"

namespace ferrule::worksheet {
namespace {

Question in_order(const handout::Lesson& lesson, const sheet::CycleTable& cycle, Chance& chance) {
  const Phrases& say = lesson.say;
  std::vector<std::size_t> order(cycle.rows.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto sorted = order;
  while (order == sorted) shuffle(order, chance);
  Question question{say("ask.order"), {}, {}, {}, static_cast<double>(order.size() - 1), 2};
  pages::Table table{{{say("head.name")}, {say("head.ends")}, {say("ask.place"), true}}, {}};
  for (const std::size_t step : order) table.rows.push_back({cell(cycle.rows[step].name), cell(cycle.rows[step].ends), cell(std::to_string(step + 1))});
  put_table(question, std::move(table), {2});
  question.working.push_back(pages::Paragraph{say("wrong.order"), "-"});
  return question;
}

Question solenoids(const handout::Lesson& lesson, const sheet::CycleTable& cycle) {
  const Phrases& say = lesson.say;
  Question question{say("ask.solenoids"), {}, {}, {}, 0.5 * static_cast<double>(cycle.rows.size() * cycle.signals.size()), 2};
  pages::Table table{{{say("head.step"), true}, {say("head.name")}}, {}};
  std::vector<std::size_t> blank;
  for (const std::string& signal : cycle.signals) blank.push_back(table.columns.size()), table.columns.push_back({signal, true});
  for (const auto& row : cycle.rows) {
    std::vector<pages::Cell> cells{cell(std::to_string(table.rows.size() + 1)), cell(row.name)};
    for (const std::string& mark : row.marks) cells.push_back(cell(mark));
    table.rows.push_back(std::move(cells));
  }
  put_table(question, std::move(table), blank);
  return question;
}

}  // namespace

Questions about_steps(const handout::Lesson& lesson, Chance& chance) {
  const auto cycle = cycle_table(lesson.circuit());
  Questions questions;
  if (!cycle || cycle->rows.size() < 2) return questions;
  questions.push_back(in_order(lesson, *cycle, chance));
  if (!cycle->signals.empty()) questions.push_back(solenoids(lesson, *cycle));
  return questions;
}

}  // namespace ferrule::worksheet
