// The sheet as usual, and the sheet in every state with what is to be said of it.
#include <algorithm>
#include <set>

#include "render/cycle.hpp"
#include "render/draw.hpp"
#include "render/handout/lesson.hpp"

namespace ferrule::handout {
namespace {

void note_once(const std::vector<std::string>& more, std::vector<std::string>& notes) {
  for (const std::string& note : more)
    if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
}

// Samples of the kinds of lines that the sheet shows, with what they mean, two in a row.
pages::Figure lines_legend(const Lesson& lesson, const DrawnSheet& page, double line_mm) {
  constexpr double sample = 20, pitch = 6, capital = 2.5;
  const double width = pages::room_on(lesson.paper, false).w;
  std::set<LineState> met;
  for (const DrawnNet& net : page.nets)
    if (net.state) met.insert(*net.state);
  pages::Figure figure{{}, width, 0};
  int index = 0;
  for (const LineState state : met) {
    const StateLook& look = look_of(state);
    const double left = index % 2 == 0 ? 0 : width / 2, y = 3 + (index / 2) * pitch;
    sheet::Ink line = sheet::line({{left, y}, {left + sample, y}}, look.widths * line_mm, look.pattern);
    line.colour = look.colour;
    figure.inks.push_back(line);
    if (look.hollow) {
      line.width *= hollow_share;
      line.colour = canvas::white;
      figure.inks.push_back(line);
    }
    figure.inks.push_back(sheet::words({left + sample + 3, y + capital / 2}, lesson.say("line." + std::string(look.name)), capital));
    figure.height = y + 3;
    ++index;
  }
  return figure;
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

std::string name_of(const Lesson& lesson, const State& state) {
  if (state.step) {
    const Step& step = lesson.circuit().work.steps[state.step];
    return lesson.say("state.step", {std::to_string(state.step.index + 1), step.text.empty() ? step.name : step.text});
  }
  return state.state_class == StateClass::rest ? lesson.say("state.rest") : lesson.say("state.worked", {spoken(state.name)});
}

std::vector<pages::Block> words_of(const Lesson& lesson, const State& state) {
  const Circuit& circuit = lesson.circuit();
  std::vector<pages::Block> blocks;
  blocks.push_back(pages::Paragraph{state.energised.empty() ? lesson.say("state.no-solenoid") : lesson.say("state.solenoids", {listed(state.energised)})});
  for (const std::string& sentence : sentences_of(circuit, paths_in(circuit, passages_of(circuit), state)))
    blocks.push_back(pages::Paragraph{sentence, "-"});
  return blocks;
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
  const Drawing drawing = draw(lesson.compilation, lesson.source);
  note_once(drawing.notes, notes);
  std::vector<pages::Section> sections;
  for (std::size_t i = 0; i < drawing.sheets.size(); ++i) {
    if (drawing.sheets[i].symbols.empty()) continue;
    const std::string& title = drawing.sheets[i].title;
    sections.push_back(with_figure(lesson, title.empty() ? lesson.say("sheet") : title, figure_of(drawing, i),
                                   {pages::Paragraph{rest_note(lesson.circuit())}}, notes));
  }
  return sections;
}

std::vector<pages::Section> state_pages(const Lesson& lesson, std::vector<std::string>& notes) {
  std::vector<pages::Section> sections;
  for (const ShownState& shown : shown_states(lesson)) {
    const Drawing drawing = draw(lesson.compilation, lesson.source, &shown.view);
    note_once(drawing.notes, notes);
    const std::string name = name_of(lesson, shown.state);
    std::vector<pages::Block> words = words_of(lesson, shown.state);
    for (std::size_t i = 0; i < drawing.sheets.size(); ++i) {
      const DrawnSheet& page = drawing.sheets[i];
      if (page.symbols.empty()) continue;
      std::vector<pages::Block> below{lines_legend(lesson, page, drawing.line_mm)};
      below.insert(below.end(), std::make_move_iterator(words.begin()), std::make_move_iterator(words.end()));
      words.clear();   // said once, below the first sheet
      sections.push_back(with_figure(lesson, page.title.empty() ? name : name + ": " + page.title, figure_of(drawing, i), std::move(below), notes));
    }
  }
  return sections;
}

}  // namespace ferrule::handout
