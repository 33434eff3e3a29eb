// How the oil is in every line in one state; what every actuator does in every state.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compiler/hydraulics/bodies.hpp"
#include "render/in_state.hpp"
#include "render/worksheet/question.hpp"

namespace ferrule::worksheet {
namespace {

constexpr std::size_t most_lines = 12;

struct AskedLine {
  std::string joins;    // "0P1.P - 0V1.P - 1V1.P"
  LineState state;
};

// "0P1.P - 0V1.P - 1V1.P"; of a long line the first ends.
std::string joins_of(const Circuit& circuit, const CircuitNets& nets, const CircuitNet& net) {
  constexpr std::size_t enough = 4;
  std::string text;
  for (std::size_t i = 0; i < std::min(net.ends.size(), enough); ++i) text += (i ? " - " : "") + circuit.name_of(port_of(nets, net.ends[i]));
  return text + (net.ends.size() > enough ? " ..." : "");
}

std::vector<AskedLine> lines_in(const Circuit& circuit, const StateView& view) {
  std::vector<AskedLine> lines;
  const CircuitNets nets = nets_of(circuit);
  for (const CircuitNet& net : nets.nets)
    if (net.ends.size() >= 2 && net.function != LineFunction::mechanical)
      lines.push_back({joins_of(circuit, nets, net), line_state_of(circuit, nets, net, view)});
  return lines;
}

std::string letters_meant(const Phrases& say) {
  std::string text;
  for (const char* letter : {"P", "R", "C", "S", "D", "H", "0"}) text += (text.empty() ? "" : ", ") + std::string(letter) + " " + say(fmt::format("letter.{}", letter));
  return text;
}

// The letter that a learner writes beside a line.
std::string_view letter_of(LineState state) {
  switch (state) {
    case LineState::fed: return "P";
    case LineState::circulates: return "C";
    case LineState::controlled:
    case LineState::returned: return "R";
    case LineState::trapped: return "H";
    case LineState::drained: return "D";
    case LineState::suction: return "S";
    case LineState::blocked:
    case LineState::open: return "0";
  }
  return "";
}

Questions lines_in_a_state(const handout::Lesson& lesson, const std::vector<handout::ShownState>& states, Chance& chance) {
  const Phrases& say = lesson.say;
  if (states.empty()) return {};
  // Not at rest where there is anything else: rest is what the sheet shows.
  const handout::ShownState& shown = states[states.size() == 1 ? 0 : 1 + below(chance, states.size() - 1)];
  std::vector<AskedLine> lines = lines_in(lesson.circuit(), shown.view);
  draw_lots(lines, most_lines, chance);
  if (lines.empty()) return {};
  Question question{say("ask.lines", {handout::name_of(lesson, shown.state), letters_meant(say)}), {}, {}, {}, 0.5 * static_cast<double>(lines.size()), 2};
  pages::Table table{{{"", true}, {say("head.line")}, {say("ask.letter"), true}}, {}};
  for (const AskedLine& line : lines)
    table.rows.push_back({cell(std::to_string(table.rows.size() + 1)), cell(line.joins), cell(std::string(letter_of(line.state)))});
  put_table(question, std::move(table), {2});
  question.working.push_back(pages::Paragraph{say("wrong.lines"), "-"});
  return {question};
}

// What the learner writes: out, in, turns or stands; empty where the state has no numbers.
std::string motion_in(const handout::Lesson& lesson, const working::Subject& subject, std::size_t state) {
  const OperatingPoint& point = lesson.book.point(state);
  const double speed = point.settled ? point.speed[subject.element.index] : std::nan("");
  if (!std::isfinite(speed)) return {};
  if (subject.body && working::stands_still(*subject.body, speed)) return lesson.say("moves.stands");
  if (subject.kind == working::Kind::motor) return lesson.say(speed > 0 ? "moves.forward" : "moves.backward");
  return lesson.say(speed > 0 ? "moves.out" : "moves.in");
}

std::string ways_to_move(const Phrases& say, bool cylinders, bool motors) {
  std::string text;
  if (cylinders) text += say("moves.out") + ", " + say("moves.in") + ", ";
  if (motors) text += say("moves.forward") + ", " + say("moves.backward") + ", ";
  return text + say("moves.stands");
}

Questions motions(const handout::Lesson& lesson) {
  const Phrases& say = lesson.say;
  std::vector<working::Subject> actuators = lesson.book.subjects();
  std::erase_if(actuators, [](const working::Subject& one) { return one.kind != working::Kind::cylinder && one.kind != working::Kind::motor; });
  const auto has = [&](working::Kind kind) { return std::any_of(actuators.begin(), actuators.end(), [&](const auto& one) { return one.kind == kind; }); };
  pages::Table table{{{say("ask.state")}}, {}};
  std::vector<std::size_t> blank;
  for (const working::Subject& one : actuators) blank.push_back(table.columns.size()), table.columns.push_back({one.where, true});
  for (const std::size_t state : lesson.book.told()) {
    std::vector<pages::Cell> row{cell(handout::name_of(lesson, lesson.book.states[state]))};
    for (const working::Subject& one : actuators) row.push_back(cell(motion_in(lesson, one, state)));
    const bool known = std::none_of(row.begin() + 1, row.end(), [](const pages::Cell& c) { return c.text.empty(); });
    if (known) table.rows.push_back(std::move(row));
  }
  if (actuators.empty() || table.rows.empty()) return {};
  Question question{say("ask.moves", {ways_to_move(say, has(working::Kind::cylinder), has(working::Kind::motor))}), {}, {}, {},
                    static_cast<double>(table.rows.size() * actuators.size()), 2};
  put_table(question, std::move(table), blank);
  return {question};
}

}  // namespace

Questions about_paths(const handout::Lesson& lesson, Chance& chance) {
  Questions questions = lines_in_a_state(lesson, handout::shown_states(lesson), chance);
  for (Question& question : motions(lesson)) questions.push_back(std::move(question));
  return questions;
}

}  // namespace ferrule::worksheet
