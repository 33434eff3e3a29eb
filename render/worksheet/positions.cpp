// Which box of a valve is at rest; complete the box of a position.
#include <fmt/format.h>

#include <algorithm>

#include "compiler/language/rows.hpp"
#include "render/worksheet/question.hpp"

namespace ferrule::worksheet {
namespace {

std::vector<PartId> valves_of(const Circuit& circuit) {
  std::vector<PartId> valves;
  for (const Part& part : circuit.parts)
    if (part.positions.size() >= 2 && part.rest >= 0) valves.push_back(circuit.parts.id_of(part));
  return valves;
}

// The row as it is drawn; `emptied`: one box without its paths.
pages::Figure row_of(const handout::Lesson& lesson, PartId part, double module = handout::symbol_module, int emptied = -1) {
  return handout::symbol_figure(symbols::figures_of(*lesson.compilation.library, lesson.circuit(), part, -1, emptied).front(), module);
}

bool is_drawn(const handout::Lesson& lesson, PartId part) {
  const auto figures = symbols::figures_of(*lesson.compilation.library, lesson.circuit(), part);
  return !figures.empty() && figures.front().fixed;
}

Question rest_box(const handout::Lesson& lesson, const std::vector<PartId>& valves) {
  const Phrases& say = lesson.say;
  Question question{say("ask.rest"), {}, {}, {}, static_cast<double>(valves.size()), 1};
  pages::Table table{{{say("head.code")}, {say("head.symbol"), true}, {say("ask.box"), true}}, {}};
  bool reads_left = false;
  for (const PartId id : valves) {
    const Part& part = lesson.circuit().parts[id];
    table.rows.push_back({cell(part.tag), {"", row_of(lesson, id)}, cell(std::to_string(part.rest + 1))});
    reads_left = reads_left || part.rest != 0;
  }
  put_table(question, std::move(table), {2});
  if (reads_left) question.working.push_back(pages::Paragraph{say("wrong.rest"), "-"});
  return question;
}

constexpr double to_draw_in = 4;   // mm a module: a box of 16 mm

struct Place {
  PartId part;
  std::size_t position;
};

// "P to A, B to T; the others are shut": the paths of a position, as the drawing names them.
std::string paths_in_words(const handout::Lesson& lesson, const Place& at) {
  std::string text;
  for (const RowPath& path : lesson.circuit().parts[at.part].positions[at.position].paths) text += (text.empty() ? "" : ", ") + name_of(path);
  return text;
}

Question missing_box(const handout::Lesson& lesson, const Place& at) {
  const Phrases& say = lesson.say;
  const Part& part = lesson.circuit().parts[at.part];
  const auto paths = static_cast<double>(part.positions[at.position].paths.size());
  Question question{say("ask.complete", {part.tag, std::to_string(at.position + 1), paths_in_words(lesson, at)}), {}, {}, {}, std::max(1.0, paths), 2};
  question.asked.push_back(row_of(lesson, at.part, to_draw_in, static_cast<int>(at.position)));
  question.solved.push_back(row_of(lesson, at.part, to_draw_in));
  return question;
}

}  // namespace

Questions about_positions(const handout::Lesson& lesson, Chance& chance) {
  constexpr std::size_t most_valves = 4;
  Questions questions;
  std::vector<PartId> valves = valves_of(lesson.circuit());
  std::erase_if(valves, [&](PartId id) { return !is_drawn(lesson, id); });
  draw_lots(valves, most_valves, chance);
  if (valves.empty()) return questions;
  questions.push_back(rest_box(lesson, valves));
  std::vector<Place> places;
  for (const PartId part : valves)
    for (std::size_t i = 0; i < lesson.circuit().parts[part].positions.size(); ++i)
      if (!lesson.circuit().parts[part].positions[i].paths.empty()) places.push_back({part, i});
  if (!places.empty()) questions.push_back(missing_box(lesson, places[below(chance, places.size())]));
  return questions;
}

}  // namespace ferrule::worksheet
