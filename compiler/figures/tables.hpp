// Results of a state as tables for people: what is told, in which columns, in the order of the text.
#pragma once

#include <string>
#include <vector>

#include "compiler/figures/book.hpp"

namespace ferrule::working {

struct TableOf {
  std::string title;
  std::vector<std::string> heads;              // the first column is the name
  std::vector<std::vector<std::string>> rows;
};
// Pumps, actuators, points, lines, valves with flow; empty tables are left out. `result` makes the cells.
std::vector<TableOf> tables_of(const Book& book, std::size_t state);
// Steps with time, power, heat; nothing without a cycle.
std::vector<TableOf> tables_of_cycle(const Book& book);
// "power in 2.06 kW = work 1.55 kW + heat 0.51 kW; efficiency 75 %"
std::string power_sentence(const Book& book, std::size_t state);
std::string cycle_sentences(const Book& book);

std::string as_text(const TableOf& table);

}  // namespace ferrule::working
