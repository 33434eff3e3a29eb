// `cycle { starts 1V1 b, step press { 1Y1 on, 1A1 presses, for 2 s } }`
#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

constexpr std::string_view step_example = "step press { 1Y1 on, 1A1 presses, for 2 s }";

// "let-down" is shown as "Let down".
std::string shown_name(std::string name) {
  std::replace(name.begin(), name.end(), '-', ' ');
  if (!name.empty() && name[0] >= 'a' && name[0] <= 'z') name[0] = static_cast<char>(name[0] - 'a' + 'A');
  return name;
}

// `until "lever moved"`, `until 1S2`, `until PS1 opens`
void read_until(WorkReading& work, Cursor& cursor, Step& step) {
  if (cursor.at(TermKind::text)) {
    step.until = take_text(cursor);
    return;
  }
  const Subject subject = take_subject(work, cursor, "`until`");
  if (subject.kind == Subject::Kind::unknown) return cursor.skip_all();
  step.until = subject.name;
  step.until_part = subject.part;
  for (std::string_view moment : {"opens", "closes"})
    if (cursor.take_word(moment)) step.until += " " + std::string(moment);
}

// `until ...` and `for ...` may also follow a motion.
void read_end(WorkReading& work, Cursor& cursor, Step& step) {
  while (!cursor.done()) {
    if (cursor.take_word("until"))
      read_until(work, cursor, step);
    else if (cursor.take_word("for"))
      step.lasts = read_quantity(work.reading, cursor, dimension::time, "how long the step lasts");
    else
      return;
  }
}

bool is_stated(const Step& step, const Motion& motion) {
  return std::any_of(step.motions.begin(), step.motions.end(), [&](const Motion& other) {
    return other.actuator == motion.actuator && other.tie == motion.tie;
  });
}

void add_motion(WorkReading& work, const Subject& subject, const Motion& motion, Step& step) {
  if (!is_stated(step, motion)) return step.motions.push_back(motion);
  const auto first = std::find_if(step.motions.begin(), step.motions.end(), [&](const Motion& other) {
    return other.actuator == motion.actuator && other.tie == motion.tie;
  });
  work.reading.report(fault::fact_twice, motion.span, fmt::format("step {} says twice what {} does", step.name, subject.name),
                      "leave one out").places.push_back({first->span, "first here"});
}

void tell_unknown_word(WorkReading& work, Cursor& cursor, const Subject& subject) {
  std::vector<std::string> known = motion_words();
  for (std::string& word : command_words()) known.push_back(std::move(word));
  if (cursor.at(TermKind::broken) && !cursor.done()) return cursor.skip_all();
  const std::string word(work.reading.text(cursor.here()));
  work.reading.report(fault::work_word_unknown, cursor.done() ? subject.span : cursor.here(),
                      cursor.done() ? fmt::format("what {} does is not said", subject.name)
                                    : fmt::format("`{}` is nothing that {} could do", word, subject.name),
                      write_instead(word, known, "write what is switched (`1Y1 on`) or what moves (`1A1 extends 100 mm`)"));
  cursor.skip_all();
}

// `extends 380 mm`: who?
void tell_missing_subject(WorkReading& work, Cursor& cursor) {
  work.reading.report(fault::word_expected, cursor.here(), fmt::format("`{}` does not say which actuator", cursor.peek().text),
                      fmt::format("write its tag in front: `1A1 {}`", work.reading.text(cursor.rest())));
  cursor.skip_all();
}

void read_step_item(WorkReading& work, Cursor& cursor, Step& step) {
  if (cursor.at(TermKind::text)) {
    step.text = take_text(cursor);
    return;
  }
  if (cursor.at_word("until") || cursor.at_word("for")) return read_end(work, cursor, step);
  if (cursor.at(TermKind::word) && is_motion_word(cursor.peek().text) && !work.circuit.by_tag.contains(cursor.peek().text))
    return tell_missing_subject(work, cursor);
  const Subject subject = take_subject(work, cursor, "a step");
  if (cursor.at(TermKind::word) && is_motion_word(cursor.peek().text)) {
    if (const auto motion = read_motion(work, cursor, subject)) add_motion(work, subject, *motion, step);
  } else if (is_command_word(work, subject, cursor)) {
    if (const auto command = read_command(work, cursor, subject)) step.commands.push_back(*command);
  } else if (subject.kind != Subject::Kind::unknown) {
    return tell_unknown_word(work, cursor, subject);
  } else {
    return cursor.skip_all();
  }
  read_end(work, cursor, step);
}

void add_step(WorkReading& work, Step step) {
  constexpr std::size_t most_steps = 2000;
  const auto& steps = work.circuit.work.steps.rows;
  if (steps.size() == most_steps) {
    if (work.told.insert("steps").second)
      work.reading.report(fault::too_many_rows, step.span, "the cycle has more than 2000 steps", "leave the steps from here on out");
    return;
  }
  const auto [same, is_new] = work.step_named.emplace(step.name, StepId{static_cast<std::uint32_t>(steps.size())});
  if (!is_new) {
    work.reading.report(fault::step_twice, step.span, fmt::format("there are two steps named {}", step.name),
                        "give one of them another name").places.push_back({work.circuit.work.steps[same->second].span, "first here"});
    return;
  }
  work.circuit.work.steps.add(std::move(step));
}

void read_step(WorkReading& work, Cursor& cursor) {
  const std::size_t mark = cursor.mark();
  if (cursor.at_word("step") && !cursor.at(TermKind::block, 1)) {
    work.reading.report(fault::words_left_over, cursor.here(), "`step` stands twice", "leave one of them out");
    cursor.take();
  }
  const auto name = want_name(work.reading, cursor, "`step`", "a name", step_example);
  if (!name) return;
  Step step;
  step.name = *name;
  step.text = shown_name(*name);
  step.span = cursor.since(mark);
  if (cursor.at(TermKind::text)) step.text = take_text(cursor);
  const Block* block = want_block(work.reading, cursor, fmt::format("step {}", *name), step_example);
  bool told = false;
  if (block)
    each_item(cursor.tree(), *block, [&](Cursor& item) {
      const std::size_t before = work.reading.messages.size();
      // Behind an item that was told, a motion without its actuator was torn from it.
      if (!told || !is_motion_word(item.peek().text)) read_step_item(work, item, step);
      else item.skip_all();
      told = work.reading.messages.size() > before;
      used_up(work.reading, item, fmt::format("what step {} says there", step.name));
    });
  add_step(work, std::move(step));
}

// `starts 1V1 b`: where a valve that stays stands before the first step; commands of drives and valves are understood too.
void read_start(WorkReading& work, Cursor& cursor) {
  const Subject subject = take_subject(work, cursor, "`starts`");
  if (subject.kind == Subject::Kind::unknown) return cursor.skip_all();
  Command command;
  command.kind = Command::Kind::lever;
  command.part = subject.part;
  command.position = subject.position;
  const std::size_t mark = cursor.mark();
  if (is_command_word(work, subject, cursor) && !cursor.at_word("at")) {
    if (const auto said = read_command(work, cursor, subject)) work.circuit.work.starts.push_back(*said);
    return;
  }
  cursor.take_word("at");
  cursor.take_word("in");
  const Span span = cursor.here();
  if (!cursor.done()) command.position = position_named(work, work.part(subject), take_name(cursor), span);
  command.span = joined(subject.span, cursor.since(mark));
  work.circuit.work.starts.push_back(command);
}

void read_cycle_item(WorkReading& work, Cursor& cursor) {
  if (cursor.at(TermKind::text)) {
    std::string& text = work.circuit.work.text;
    text += (text.empty() ? "" : " ") + take_text(cursor);
  } else if (cursor.take_word("step")) {
    read_step(work, cursor);
  } else if (cursor.take_word("starts")) {
    read_start(work, cursor);
  } else {
    const std::string word(work.reading.text(cursor.here()));
    work.reading.report(fault::work_word_unknown, cursor.here(), fmt::format("a cycle is made of steps; `{}` is none", word),
                        write_instead(word, {"step", "starts"}, fmt::format("write `{}`", step_example)));
    cursor.skip_all();
  }
  used_up(work.reading, cursor, "this part of the cycle");
}

// A broken step has its message; its name is declared all the same.
void read_whole_or_broken(WorkReading& work, const Tree& tree, const Item& item) {
  if (item.count == 0) return;
  Cursor cursor(tree, item);
  const std::size_t before = work.reading.messages.size();
  if (!item.broken || cursor.at_word("step")) read_cycle_item(work, cursor);
  if (item.broken) work.reading.messages.resize(before);
}

}  // namespace

void read_cycle(WorkReading& work, Cursor& cursor) {
  const Span whole = cursor.whole();
  cursor.take();
  if (!work.circuit.work.span.empty()) {
    work.reading.report(fault::statement_misplaced, whole, "the circuit has two cycles", "write the steps into one cycle")
        .places.push_back({work.circuit.work.span, "first here"});
    return;
  }
  work.circuit.work.span = whole;
  work.circuit.work.text = take_text(cursor);
  const Block* block = want_block(work.reading, cursor, "`cycle`", "cycle { step press { 1Y1 on, 1A1 presses } }");
  if (!block) return;
  for (const Item& item : cursor.tree().items_of(*block)) read_whole_or_broken(work, cursor.tree(), item);
  used_up(work.reading, cursor, "the cycle");
}

}  // namespace ferrule
