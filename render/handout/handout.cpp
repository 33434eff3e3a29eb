#include "render/handout/lesson.hpp"

namespace ferrule::handout {
namespace {

std::string sheet_text(const Circuit& circuit, const char* key) {
  const auto found = circuit.sheet.texts.find(key);
  return found == circuit.sheet.texts.end() ? std::string() : found->second;
}

// "BS-001 B": number and revision.
std::string number_of(const Circuit& circuit) {
  const std::string number = sheet_text(circuit, "number"), revision = sheet_text(circuit, "revision");
  return number.empty() || revision.empty() ? number : number + " " + revision;
}

std::string title_of(const Lesson& lesson) { return lesson.circuit().title.empty() ? lesson.source : lesson.circuit().title; }

void append(std::vector<pages::Section>& all, std::vector<pages::Section> more) {
  for (pages::Section& section : more) all.push_back(std::move(section));
}

std::vector<std::string> paragraphs_of(const std::string& prose) {
  std::vector<std::string> paragraphs;
  for (std::size_t at = 0; at < prose.size();) {
    const std::size_t end = std::min(prose.find('\n', at), prose.size());
    if (end > at) paragraphs.push_back(prose.substr(at, end - at));
    at = end + 1;
  }
  return paragraphs;
}

// Where a learner writes: words, then a line to write on.
pages::Figure lines_to_fill(const std::vector<std::string>& words, double width) {
  constexpr double capital = 2.5, height = 9;   // blanks at least 8 mm high
  pages::Figure figure{{}, width, height};
  const double each = width / static_cast<double>(words.size());
  for (std::size_t i = 0; i < words.size(); ++i) {
    const double left = static_cast<double>(i) * each, begin = left + canvas::measured(words[i], capital).width + 2;
    figure.inks.push_back(sheet::words({left, height - 1}, words[i], capital));
    figure.inks.push_back(sheet::line({{begin, height}, {left + each - 4, height}}, 0.25));
  }
  return figure;
}

// Whether the printer kept the size: a line of 100 mm to be measured.
pages::Figure control_line(const std::string& words) {
  constexpr double length = 100, tick = 2;
  pages::Figure figure{{}, length, 9};
  figure.inks = {sheet::line({{0, tick}, {length, tick}}, 0.25), sheet::line({{0, 0}, {0, 2 * tick}}, 0.25),
                 sheet::line({{length, 0}, {length, 2 * tick}}, 0.25), sheet::words({length / 2, 8.5}, words, 2.5, sheet::Anchor::middle)};
  return figure;
}

}  // namespace

pages::Document frame_of(const Lesson& lesson, const std::string& kind) {
  pages::Document document;
  document.title = title_of(lesson) + ": " + kind;
  document.number = number_of(lesson.circuit());
  if (!lesson.variant.empty()) document.number += (document.number.empty() ? "" : ", ") + lesson.variant;
  document.date = lesson.date;
  document.note = lesson.say("foot.note");
  document.page_of = lesson.say("foot.page");
  document.subject = kind;
  return document;
}

pages::Section title_page(const Lesson& lesson, const std::string& kind) {
  const Circuit& circuit = lesson.circuit();
  const Phrases& say = lesson.say;
  const double width = pages::room_on(lesson.paper, false).w;
  pages::Section page;
  auto& blocks = page.blocks;
  blocks.push_back(pages::Heading{title_of(lesson), 0});
  blocks.push_back(pages::Paragraph{kind, "", 3.5});
  blocks.push_back(pages::Spacing{6});
  blocks.push_back(lines_to_fill({say("title.name"), say("title.date")}, width));
  if (!circuit.purpose.empty()) blocks.push_back(pages::Heading{say("title.purpose"), 1});
  for (const std::string& paragraph : paragraphs_of(circuit.purpose)) blocks.push_back(pages::Paragraph{paragraph});
  bool first = true;
  for (const FactValue& fact : circuit.facts) {
    if (fact.name != "aim") continue;
    if (first) blocks.push_back(pages::Heading{say("title.aims"), 1});
    first = false;
    blocks.push_back(pages::Paragraph{fact.word, "-"});
  }
  blocks.push_back(pages::Heading{say("title.cautions"), 1});
  pages::Frame frame;
  for (const std::string& caution : lesson.cautions) frame.paragraphs.push_back({caution, "!"});
  blocks.push_back(std::move(frame));
  blocks.push_back(pages::Spacing{8});
  blocks.push_back(control_line(say("title.control-line")));
  return page;
}

pages::Document handout(const Lesson& lesson, std::vector<std::string>& notes) {
  const std::string kind = lesson.say("handout");
  pages::Document document = frame_of(lesson, kind);
  auto& sections = document.sections;
  sections.push_back(title_page(lesson, kind));
  append(sections, sheet_pages(lesson, notes));
  sections.push_back(lists(lesson));
  append(sections, state_pages(lesson, notes));
  sections.push_back(results_page(lesson));
  return document;
}

}  // namespace ferrule::handout
