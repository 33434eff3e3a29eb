// The sheet as usual, and the sheet in every state with what is to be said of it.
#include <algorithm>

#include "compiler/paths/sentences.hpp"
#include "render/cycle.hpp"
#include "render/handout/lesson.hpp"

namespace ferrule::handout {
namespace {

void note_once(const std::vector<std::string>& more, std::vector<std::string>& notes) {
  for (const std::string& note : more)
    if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

// "1V1=a, 2V1=b" reads "1V1: a, 2V1: b".
std::string spoken(std::string name) {
  for (std::size_t at = name.find('='); at != std::string::npos; at = name.find('=')) name.replace(at, 1, ": ");
  return name;
}

}  // namespace

std::string name_of(const Lesson& lesson, const State& state) {
  if (state.step) {
    const Step& step = lesson.circuit().work.steps[state.step];
    return lesson.say("state.step", {std::to_string(state.step.index + 1), step.text.empty() ? step.name : step.text});
  }
  return state.state_class == StateClass::rest ? lesson.say("state.rest") : lesson.say("state.worked", {spoken(state.name)});
}

namespace {

std::vector<pages::Block> words_of(const Lesson& lesson, const State& state) {
  const Circuit& circuit = lesson.circuit();
  std::vector<pages::Block> blocks;
  blocks.push_back(pages::Paragraph{state.energised.empty() ? lesson.say("state.no-solenoid") : lesson.say("state.solenoids", {listed(state.energised)})});
  for (const std::string& sentence : sentences_of(circuit, paths_in(circuit, passages_of(circuit), state), lesson.say))
    blocks.push_back(pages::Paragraph{sentence, "-"});
  return blocks;
}

// The drawing under its heading; what is to be said stands below the last of its sheets.
std::vector<pages::Section> pages_with(const Lesson& lesson, const std::string& heading, const StateView* view, const std::vector<pages::Block>& words,
                                       double below, std::vector<std::string>& notes) {
  std::vector<std::string> said;
  std::vector<pages::Section> sections;
  for (DrawnFigure& one : figures_of(lesson, view, below, said)) {
    const std::string title = one.title.empty() ? heading : heading + ": " + one.title;
    sections.push_back({{pages::Heading{title, 1}, std::move(one.figure)}, one.wide});
  }
  if (!sections.empty()) sections.back().blocks.insert(sections.back().blocks.end(), words.begin(), words.end());
  note_once(said, notes);
  return sections;
}

bool shows(const std::vector<ShownState>& states, std::size_t part, std::int16_t position) {
  return std::any_of(states.begin(), states.end(), [&](const ShownState& one) { return one.state.position[part] == position; });
}

// Of the circuit without its cycle, in which every solenoid and lever is worked alone.
void add_positions_not_shown(const Lesson& lesson, std::vector<ShownState>& states) {
  Circuit still = lesson.circuit();
  still.work.steps = {};
  const States alone = states_of(still);
  const Points points(still, alone.states);
  const working::Book book(still, alone.states, points);
  for (std::size_t i = 0; i < alone.states.size(); ++i) {
    const State& state = alone.states[i];
    for (std::size_t part = 0; part < state.position.size(); ++part)
      if (state.position[part] >= 0 && !shows(states, part, state.position[part])) {
        states.push_back({state, view_of(book, i)});
        break;
      }
  }
}

}  // namespace

std::vector<ShownState> shown_states(const Lesson& lesson) {
  std::vector<ShownState> states;
  for (const std::size_t index : lesson.book.told()) states.push_back({lesson.book.states[index], view_of(lesson.book, index)});
  add_positions_not_shown(lesson, states);
  return states;
}

std::vector<pages::Section> sheet_pages(const Lesson& lesson, std::vector<std::string>& notes) {
  const std::vector<pages::Block> below{pages::Paragraph{rest_note(lesson.circuit())}};
  return pages_with(lesson, lesson.say("sheet"), nullptr, below, height_of(below, pages::room_on(lesson.paper, false).w), notes);
}

std::vector<pages::Section> state_pages(const Lesson& lesson, std::vector<std::string>& notes) {
  const std::vector<ShownState> states = shown_states(lesson);
  std::vector<std::vector<pages::Block>> words;
  double below = 0;   // the same for all, so that the drawing stands at the same place on all
  for (const ShownState& shown : states) {
    words.push_back(words_of(lesson, shown.state));
    below = std::max(below, height_of(words.back(), pages::room_on(lesson.paper, false).w));
  }
  std::vector<pages::Section> sections;
  for (std::size_t i = 0; i < states.size(); ++i)
    for (pages::Section& section : pages_with(lesson, name_of(lesson, states[i].state), &states[i].view, words[i], below, notes))
      sections.push_back(std::move(section));
  return sections;
}

}  // namespace ferrule::handout
