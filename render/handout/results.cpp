// The computed results as tables: what every step comes to, and the cycle.
#include <algorithm>

#include "compiler/figures/tables.hpp"
#include "render/handout/lesson.hpp"

namespace ferrule::handout {
namespace {

using working::TableOf;

// The same table of several states under one head, the state's name before the rows.
void join(std::vector<TableOf>& all, const TableOf& table, const std::string& state) {
  auto same = std::find_if(all.begin(), all.end(), [&](const TableOf& one) { return one.title == table.title; });
  if (same == all.end()) {
    TableOf begun{table.title, table.heads, {}};
    begun.heads.insert(begun.heads.begin(), "state");
    all.push_back(std::move(begun));
    same = all.end() - 1;
  }
  for (std::vector<std::string> row : table.rows) {
    row.insert(row.begin(), state);
    same->rows.push_back(std::move(row));
  }
}

// `first` is the head of the column that names the rows.
pages::Table printed(const Lesson& lesson, const TableOf& table, const std::string& first) {
  pages::Table out;
  for (const std::string& head : table.heads) out.columns.push_back({head.empty() ? first : lesson.say.word("result", head), false, 0});
  for (const auto& row : table.rows) {
    std::vector<pages::Cell> cells;
    for (const std::string& cell : row) cells.push_back({cell, {}});
    out.rows.push_back(std::move(cells));
  }
  return out;
}

// Points and lines belong to the flow-path pages, which show them where they are.
bool is_told(const TableOf& table) { return table.title == "pumps" || table.title == "actuators" || table.title == "motors"; }

}  // namespace

pages::Section results_page(const Lesson& lesson) {
  const Phrases& say = lesson.say;
  pages::Section section{{pages::Heading{say("results"), 1}, pages::Paragraph{say("results.note")}}, false};
  std::vector<TableOf> all;
  for (const std::size_t state : lesson.book.told()) {
    if (!lesson.book.point(state).settled) continue;
    for (const TableOf& table : working::tables_of(lesson.book, state))
      if (is_told(table)) join(all, table, lesson.book.states[state].name);
  }
  for (const TableOf& table : all) {
    section.blocks.push_back(pages::Heading{say.word("results", table.title), 2});
    section.blocks.push_back(printed(lesson, table, say("head.code")));
  }
  for (const TableOf& table : working::tables_of_cycle(lesson.book)) {
    section.blocks.push_back(pages::Heading{say.word("results", table.title), 2});
    section.blocks.push_back(printed(lesson, table, say("head.step")));
  }
  return section;
}

}  // namespace ferrule::handout
