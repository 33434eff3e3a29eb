// The questions as documents: for the learner with blanks, for the instructor filled in.
#include <fmt/format.h>

#include <numeric>

#include "render/worksheet/question.hpp"

namespace ferrule::worksheet {
namespace {

double marks_of(const Questions& questions) {
  return std::accumulate(questions.begin(), questions.end(), 0.0, [](double sum, const Question& q) { return sum + q.marks; });
}

// "3  Which way does 1A1 move?  (4 marks)"
pages::Heading head_of(const handout::Lesson& lesson, const Question& question, std::size_t number) {
  return {fmt::format("{}  {}  ({})", number, question.text, lesson.say("ask.marks", {fmt::format("{:g}", question.marks)})), 2};
}

void append(std::vector<pages::Block>& blocks, const std::vector<pages::Block>& more) { blocks.insert(blocks.end(), more.begin(), more.end()); }

}  // namespace

pages::Document worksheet(const handout::Lesson& lesson, const Questions& questions, std::vector<std::string>& notes) {
  const std::string kind = lesson.say("worksheet");
  pages::Document document = handout::frame_of(lesson, kind);
  document.sections.push_back(handout::title_page(lesson, kind));
  document.sections.back().blocks.push_back(pages::Paragraph{lesson.say("ask.total", {fmt::format("{:g}", marks_of(questions))})});
  for (pages::Section& section : handout::sheet_pages(lesson, notes)) document.sections.push_back(std::move(section));
  pages::Section section{{pages::Heading{lesson.say("ask.questions"), 1}}, false};
  for (std::size_t i = 0; i < questions.size(); ++i) {
    section.blocks.push_back(head_of(lesson, questions[i], i + 1));
    append(section.blocks, questions[i].asked);
  }
  document.sections.push_back(std::move(section));
  return document;
}

pages::Document answers(const handout::Lesson& lesson, const Questions& questions) {
  const Phrases& say = lesson.say;
  const std::string kind = say("answers");
  pages::Document document = handout::frame_of(lesson, kind);
  const double marks = marks_of(questions);
  const double weighed = std::accumulate(questions.begin(), questions.end(), 0.0, [](double sum, const Question& q) { return sum + q.level * q.marks; });
  pages::Section section{{pages::Heading{document.title, 0}, pages::Paragraph{say("answers.note")},
                          pages::Paragraph{say("answers.total", {fmt::format("{:g}", marks), fmt::format("{:.1f}", marks > 0 ? weighed / marks : 0)})}}, false};
  for (std::size_t i = 0; i < questions.size(); ++i) {
    section.blocks.push_back(head_of(lesson, questions[i], i + 1));
    append(section.blocks, questions[i].solved);
    append(section.blocks, questions[i].working);
  }
  document.sections.push_back(std::move(section));
  return document;
}

}  // namespace ferrule::worksheet
