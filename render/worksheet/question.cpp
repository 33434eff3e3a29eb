#include "render/worksheet/question.hpp"

#include <algorithm>

namespace ferrule::worksheet {
namespace {

constexpr double blank_height = 8, blank_width = 25;  // mm, for handwriting

void append(Questions& all, Questions more) {
  for (Question& question : more) all.push_back(std::move(question));
}

}  // namespace

std::size_t below(Chance& chance, std::size_t limit) { return chance() % limit; }

pages::Cell cell(std::string words) { return {std::move(words), {}}; }

void put_table(Question& question, pages::Table filled, const std::vector<std::size_t>& blank) {
  filled.least_row = std::max(filled.least_row, blank_height);
  for (const std::size_t column : blank) filled.columns[column].least = std::max(filled.columns[column].least, blank_width);
  pages::Table empty = filled;
  for (auto& row : empty.rows)
    for (const std::size_t column : blank) row[column] = {};
  question.asked.push_back(std::move(empty));
  question.solved.push_back(std::move(filled));
}

Questions questions_on(const handout::Lesson& lesson, std::uint32_t seed, std::vector<std::string>& notes) {
  Chance chance(seed + 1);
  Questions all;
  for (const auto maker : {about_symbols, about_positions, about_paths, about_steps, about_numbers}) append(all, maker(lesson, chance));
  append(all, of_the_text(lesson, notes));
  return all;
}

}  // namespace ferrule::worksheet
