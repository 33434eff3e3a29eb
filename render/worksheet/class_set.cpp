// The index of a class set: which variant has which values, and what its key computes.
#include "render/worksheet/question.hpp"

namespace ferrule::worksheet {

std::vector<std::pair<std::string, std::string>> computed_in(const Questions& questions) {
  std::vector<std::pair<std::string, std::string>> results;
  for (const Question& question : questions)
    if (!question.result.empty()) results.emplace_back(question.address, question.result);
  return results;
}

pages::Document index_of_set(const handout::Lesson& lesson, const std::vector<IndexRow>& rows) {
  const Phrases& say = lesson.say;
  pages::Document document = handout::frame_of(lesson, say("index"));
  pages::Table varied{{{say("index.variant"), true}}, {}}, computed{{{say("index.variant"), true}, {say("ask.result")}, {say("ask.value")}}, {}};
  if (!rows.empty())
    for (const auto& [name, value] : rows.front().varied) varied.columns.push_back({name, true});
  for (const IndexRow& row : rows) {
    std::vector<pages::Cell> cells{cell(row.variant)};
    for (const auto& [name, value] : row.varied) cells.push_back(cell(value));
    varied.rows.push_back(std::move(cells));
    for (const auto& [address, result] : row.computed) computed.rows.push_back({cell(&address == &row.computed.front().first ? row.variant : ""), cell(address), cell(result)});
  }
  pages::Section section{{pages::Heading{document.title, 0}, pages::Paragraph{say("index.note")}, pages::Heading{say("index.varied"), 1}, std::move(varied)}, false};
  if (!computed.rows.empty()) section.blocks.insert(section.blocks.end(), {pages::Heading{say("index.computed"), 1}, std::move(computed)});
  document.sections.push_back(std::move(section));
  return document;
}

}  // namespace ferrule::worksheet
