// Questions on a circuit, made from its model and marked by the same computation: nothing is typed twice.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "render/handout/lesson.hpp"

namespace ferrule::worksheet {

struct Question {
  std::string text;
  std::vector<pages::Block> asked;    // what the learner fills in
  std::vector<pages::Block> solved;   // the same, filled in
  std::vector<pages::Block> working;  // of the key alone: how one comes to it, what is often answered instead and why
  double marks = 1;
  int level = 1;                      // 1 recall, 2 apply, 3 combine
  std::string address = {}, result = {};  // of a computed answer: "1A1.speed, lower", "0.21 m/s"
};
using Questions = std::vector<Question>;

// The minimal standard generator of Park and Miller (Communications of the ACM 31, 1988), the same on every machine. What it
// gives is taken modulo, for distributions of the library differ from one to the next.
using Chance = std::minstd_rand;
std::size_t below(Chance& chance, std::size_t limit);
// The order is by chance.
template <typename T>
void shuffle(std::vector<T>& all, Chance& chance) {
  for (std::size_t i = all.size(); i > 1; --i) std::swap(all[i - 1], all[below(chance, i)]);
}
// At most `most` of them, chosen by chance, in the order that they had.
template <typename T>
void draw_lots(std::vector<T>& all, std::size_t most, Chance& chance) {
  while (all.size() > most) all.erase(all.begin() + static_cast<std::ptrdiff_t>(below(chance, all.size())));
}

// A table whose columns `blank` are empty for the learner and filled in on the key. Blanks are made for handwriting: at least
// 8 mm high and 25 mm wide, whatever stands in them.
void put_table(Question& question, pages::Table filled, const std::vector<std::size_t>& blank);
pages::Cell cell(std::string words);

// ---------------------------------------------------------------- makers; each gives none where the circuit has nothing to ask

Questions about_symbols(const handout::Lesson& lesson, Chance& chance);    // name them, letter their ports
Questions about_positions(const handout::Lesson& lesson, Chance& chance);  // which box is at rest, complete a box
Questions about_paths(const handout::Lesson& lesson, Chance& chance);      // mark the lines in a state, what moves
Questions about_steps(const handout::Lesson& lesson, Chance& chance);      // order them, fill in the solenoids
Questions about_numbers(const handout::Lesson& lesson, Chance& chance);    // compute results
Questions of_the_text(const handout::Lesson& lesson, std::vector<std::string>& notes);  // `ask` statements; what has no key is noted

// All of them in this order. The same seed asks the same.
Questions questions_on(const handout::Lesson& lesson, std::uint32_t seed, std::vector<std::string>& notes);

// ---------------------------------------------------------------- documents

// Title page, the sheet, the questions with room to write. Nothing in the file tells an answer.
pages::Document worksheet(const handout::Lesson& lesson, const Questions& questions, std::vector<std::string>& notes);
// For the instructor: the same questions in the same order, filled in, with workings.
pages::Document answers(const handout::Lesson& lesson, const Questions& questions);

// One variant of a class set: what was varied, and the results that its key computes.
struct IndexRow {
  std::string variant;                                         // "3"
  std::vector<std::pair<std::string, std::string>> varied;     // "load", "24 kN"
  std::vector<std::pair<std::string, std::string>> computed;   // "1A1.speed, lower", "0.21 m/s"
};
// The computed results of questions, for the index.
std::vector<std::pair<std::string, std::string>> computed_in(const Questions& questions);
// For the instructor: a table of all variants.
pages::Document index_of_set(const handout::Lesson& lesson, const std::vector<IndexRow>& rows);

}  // namespace ferrule::worksheet
