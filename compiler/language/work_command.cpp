// What a step or a rule does to a part: `1Y1 on`, `V1 lever a at 38 L/min`, `P1 at -30 %`, `ACC1 gas 140 bar`.
#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

using Kind = Command::Kind;

struct CommandWord {
  std::string_view word;
  Kind kind;
};
constexpr CommandWord words[] = {
    {"on", Kind::on},           {"off", Kind::off},         {"pulse", Kind::pulse},   {"at", Kind::at},
    {"stopped", Kind::stopped}, {"running", Kind::running}, {"gas", Kind::gas},       {"open", Kind::open},
    {"closed", Kind::closed},   {"lever", Kind::lever},     {"pedal", Kind::lever},   {"push-button", Kind::lever},
    {"pull-button", Kind::lever}, {"plunger", Kind::lever}, {"roller", Kind::lever},  {"manual", Kind::lever},
    {"air", Kind::lever},       {"position", Kind::lever},
};

const CommandWord* command_word(std::string_view word) {
  const auto found = std::find_if(std::begin(words), std::end(words), [&](const CommandWord& w) { return w.word == word; });
  return found == std::end(words) ? nullptr : found;
}

// A fact that its definition lets a step set: `FC1 flow 12 L/min`.
const FactSpec* commanded_fact(const WorkReading& work, const Subject& subject, std::string_view word) {
  if (!subject.part || subject.kind != Subject::Kind::part) return nullptr;
  const Definition* definition = work.part(subject).definition;
  const FactSpec* fact = definition ? definition->fact(word) : nullptr;
  return fact && fact->command ? fact : nullptr;
}

void tell_cannot(WorkReading& work, Span span, std::string sentence, std::string fix) {
  work.reading.report(fault::cannot_do, span, std::move(sentence), std::move(fix));
}

std::vector<std::string> position_names(const Part& valve) {
  std::vector<std::string> names;
  for (const PositionRow& row : valve.positions) names.push_back(row.name);
  return names;
}

// The one position besides rest: `V1 on` and `V1 lever` then need no name.
int only_other_position(const Part& valve) {
  int found = -1;
  for (int row = 0; row < static_cast<int>(valve.positions.size()); ++row) {
    if (row == valve.rest) continue;
    if (found >= 0) return -1;
    found = row;
  }
  return found;
}

// `V1 closed` on a valve that is drawn with positions: the row without a path, or the other one.
int position_that_is(const Part& valve, Kind kind) {
  for (int row = 0; row < static_cast<int>(valve.positions.size()); ++row)
    if (valve.positions[row].paths.empty() == (kind == Kind::closed)) return row;
  return -1;
}

void want_position(WorkReading& work, Cursor& cursor, const Subject& subject, Command& command) {
  const Part& valve = work.part(subject);
  if (is_unknown_kind(work, subject)) return cursor.skip_all();
  if (valve.positions.empty())
    return tell_cannot(work, subject.span, fmt::format("`{}` has no positions that a hand could bring", subject.name),
                       "operate a valve");
  const Span span = cursor.here();
  const bool named = cursor.at(TermKind::number) || (cursor.at(TermKind::word) && !cursor.at_word("at"));
  if (named) {
    command.position = position_named(work, valve, take_name(cursor), span);
    return;
  }
  command.position = only_other_position(valve);
  if (command.position >= 0) return;
  const auto names = position_names(valve);
  work.reading.report(fault::unknown_position, span, fmt::format("which position of `{}` is meant is not said", subject.name),
                      fmt::format("name one of {}", listed(names)));
}

// `1V1 on`: a valve with one solenoid position; of more, the solenoid has to be named.
void energise(WorkReading& work, const Subject& subject, Command& command) {
  if (subject.kind == Subject::Kind::solenoid) {
    command.solenoid = subject.name;
    command.position = subject.position;
    return;
  }
  const Part& part = work.part(subject);
  if (part.positions.empty() || command.kind == Kind::off) return;
  std::vector<std::string> tags;
  for (const auto& solenoid : work.solenoids)
    if (solenoid.valve == subject.part) tags.push_back(solenoid.tag);
  if (tags.size() == 1) {
    command.solenoid = tags.front();
    for (const auto& solenoid : work.solenoids)
      if (solenoid.tag == tags.front()) command.position = solenoid.position;
    return;
  }
  tell_cannot(work, subject.span,
              tags.empty() ? fmt::format("`{}` has no solenoid to switch", subject.name)
                           : fmt::format("`{}` has several solenoids", subject.name),
              tags.empty() ? fmt::format("write `{} lever {}`", subject.name, part.positions.front().name)
                           : fmt::format("name one of {}", listed(tags)));
}

void switch_drive(WorkReading& work, const Subject& subject, Command& command) {
  const Part& part = work.part(subject);
  const bool is_pump = part.definition && part.definition->role("feeds");
  if (command.kind == Kind::on) command.kind = Kind::running;
  if (command.kind == Kind::off) command.kind = Kind::stopped;
  if (!is_drive(part) && !is_pump && !is_unknown_kind(work, subject))
    tell_cannot(work, subject.span, fmt::format("`{}` is no drive: it can be neither running nor stopped", subject.name),
                "name a motor, an engine or a pump");
}

void read_amount(WorkReading& work, Cursor& cursor, const Subject& subject, Command& command) {
  const Dimension before = dimension::pressure;
  const std::string purpose = fmt::format("`{}`", subject.name);
  if (command.kind == Kind::gas)
    command.amount = read_quantity(work.reading, cursor, before, "the gas pressure");
  else
    command.amount = read_any_quantity(work.reading, cursor, purpose);
}

std::optional<Command> read_fact(WorkReading& work, Cursor& cursor, const Subject& subject, const FactSpec& fact) {
  Command command;
  const std::size_t mark = cursor.mark();
  cursor.take();
  command.kind = Kind::at;
  command.part = subject.part;
  command.fact = fact.name;
  command.amount = read_quantity(work.reading, cursor, fact.dimension, fmt::format("`{}`", fact.name));
  command.span = joined(subject.span, cursor.since(mark));
  if (!command.amount) return {};
  return command;
}

void apply_word(WorkReading& work, Cursor& cursor, const Subject& subject, Command& command) {
  const bool switches_drive = subject.kind == Subject::Kind::part && work.part(subject).positions.empty() &&
                              (is_drive(work.part(subject)) || command.kind == Kind::running || command.kind == Kind::stopped);
  switch (command.kind) {
    case Kind::on:
    case Kind::off:
    case Kind::pulse:
    case Kind::running:
    case Kind::stopped:
      if (switches_drive) return switch_drive(work, subject, command);
      energise(work, subject, command);
      if (command.kind == Kind::off) command.position = -1;
      return;
    case Kind::lever: return want_position(work, cursor, subject, command);
    case Kind::open:
    case Kind::closed:
      command.position = position_that_is(work.part(subject), command.kind);
      return;
    case Kind::at:
      if (subject.kind == Subject::Kind::solenoid) energise(work, subject, command);
      return read_amount(work, cursor, subject, command);
    default: return read_amount(work, cursor, subject, command);
  }
}

}  // namespace

std::vector<std::string> command_words() {
  std::vector<std::string> all;
  for (const CommandWord& word : words) all.emplace_back(word.word);
  return all;
}

int position_named(WorkReading& work, const Part& valve, std::string_view name, Span span) {
  for (std::size_t row = 0; row < valve.positions.size(); ++row)
    if (valve.positions[row].name == name) return static_cast<int>(row);
  const auto names = position_names(valve);
  Message& message = work.reading.report(fault::unknown_position, span, fmt::format("{} has no position `{}`", valve.tag, name),
                                         fmt::format("it has {}", listed(names, "and")));
  message.places.push_back({valve.span, "declared here"});
  return -1;
}

bool is_command_word(const WorkReading& work, const Subject& subject, const Cursor& cursor) {
  if (!cursor.at(TermKind::word)) return false;
  return command_word(cursor.peek().text) || commanded_fact(work, subject, cursor.peek().text);
}

std::optional<Command> read_command(WorkReading& work, Cursor& cursor, const Subject& subject) {
  const FactSpec* fact = commanded_fact(work, subject, cursor.peek().text);
  if (fact && !command_word(cursor.peek().text)) return read_fact(work, cursor, subject, *fact);
  const std::size_t mark = cursor.mark();
  Command command;
  command.kind = command_word(cursor.take().text)->kind;
  command.part = subject.part;
  if (subject.kind == Subject::Kind::unknown) {
    cursor.skip_all();
    return {};
  }
  apply_word(work, cursor, subject, command);
  if ((command.kind == Kind::lever || command.kind == Kind::on) && cursor.take_word("at"))
    read_amount(work, cursor, subject, command);
  command.span = joined(subject.span, cursor.since(mark));
  return command;
}

}  // namespace ferrule
