// Control rules: `0Y1 on whenever 1Y1 or 1Y2`, `V3a on from PS1 closes until PS1 opens`, `never 1Y1 with 1Y2`.
#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

using Kind = ControlRule::Kind;
using RuleTerm = ControlRule::Term;

constexpr std::string_view states[] = {"closed", "open",    "closes",  "opens", "on",     "off",  "running",
                                       "stopped", "turns",  "extends", "retracts", "presses", "stands", "held", "moves"};

std::string take_state(Cursor& cursor) {
  for (std::string_view state : states)
    if (cursor.take_word(state)) return std::string(state);
  return {};
}

Command bare_command(const Subject& subject) {
  Command command;
  command.part = subject.part;
  command.position = subject.position;
  command.span = subject.span;
  if (subject.kind == Subject::Kind::solenoid) command.solenoid = subject.name;
  return command;
}

bool ends_a_step(const Circuit& circuit, PartId part) {
  const std::string tag = circuit.parts[part].tag;
  return std::any_of(circuit.work.steps.begin(), circuit.work.steps.end(),
                     [&](const Step& step) { return step.until == tag + " opens" || step.until == tag + " closes"; });
}

// A contact is known from the moments at which steps end; else the rule would be passed over in silence.
void check_contact(WorkReading& work, const RuleTerm& term) {
  const bool asks = term.part && term.solenoid.empty() && (term.state == "closed" || term.state == "open");
  if (!asks || ends_a_step(work.circuit, term.part)) return;
  const std::string tag = work.circuit.parts[term.part].tag;
  if (!work.told.insert(tag + " closed").second) return;
  work.reading.report(fault::contact_unknown, term.span, fmt::format("no step ends when {} opens or closes, so when it is {} is not known", tag, term.state),
                      fmt::format("end a step with `until {} opens`, or write `on from {} closes until {} opens`", tag, tag, tag)).subject = tag;
}

// `never 1Y1 with 1Y2`
void read_never(WorkReading& work, Cursor& cursor, ControlRule& rule) {
  rule.kind = Kind::never_with;
  const Subject subject = take_subject(work, cursor, "`never`");
  if (subject.kind == Subject::Kind::unknown) return cursor.skip_all();
  rule.command = bare_command(subject);
  cursor.take_word("on");
  if (!cursor.take_word("with")) {
    work.reading.report(fault::word_expected, cursor.here(), fmt::format("`never {}` needs what it may not meet", subject.name),
                        fmt::format("write `never {} with 1Y2`", subject.name));
    return cursor.skip_all();
  }
  rule.any_of_all = read_condition(work, cursor, "`with`");
}

void read_moments(WorkReading& work, Cursor& cursor, ControlRule& rule) {
  rule.kind = Kind::from_until;
  const auto from = read_term(work, cursor, "`from`");
  if (!from) return cursor.skip_all();
  rule.from = *from;
  if (!cursor.take_word("until")) {
    work.reading.report(fault::word_expected, cursor.here(), "a rule with `from` needs `until`, else it never ends",
                        "write `from PS1 closes until PS1 opens`");
    return cursor.skip_all();
  }
  if (const auto until = read_term(work, cursor, "`until`")) rule.until = *until;
}

void read_when(WorkReading& work, Cursor& cursor, const Subject& subject, ControlRule& rule) {
  if (cursor.take_word("whenever")) {
    rule.any_of_all = read_condition(work, cursor, "`whenever`");
  } else if (cursor.take_word("from")) {
    read_moments(work, cursor, rule);
  } else {
    const std::string word(work.reading.text(cursor.here()));
    work.reading.report(fault::word_expected, cursor.here(), fmt::format("a rule for {} needs the condition under which it holds", subject.name),
                        write_instead(word, {"whenever", "from"}, fmt::format("write `{} on whenever 1Y1`", subject.name)));
    cursor.skip_all();
  }
}

void read_command_rule(WorkReading& work, Cursor& cursor, ControlRule& rule) {
  const Subject subject = take_subject(work, cursor, "a control rule");
  if (subject.kind == Subject::Kind::unknown) return cursor.skip_all();
  rule.command = bare_command(subject);
  if (cursor.take_word("only")) {
    rule.kind = Kind::only_with;
    if (!cursor.take_word("with"))
      work.reading.report(fault::word_expected, cursor.here(), "`only` needs `with`", fmt::format("write `{} only with 1Y1`", subject.name));
    rule.any_of_all = read_condition(work, cursor, "`with`");
    return;
  }
  if (is_command_word(work, subject, cursor)) {
    const auto command = read_command(work, cursor, subject);
    if (!command) return cursor.skip_all();
    rule.command = *command;
  }
  read_when(work, cursor, subject, rule);
}

}  // namespace

std::optional<ControlRule::Term> read_term(WorkReading& work, Cursor& cursor, std::string_view after) {
  RuleTerm term;
  const std::size_t mark = cursor.mark();
  if (cursor.at(TermKind::text)) {
    term.text = take_text(cursor);
    term.span = cursor.since(mark);
    return term;
  }
  if (cursor.at(TermKind::word) && is_step(work.circuit, cursor.peek().text) && !work.circuit.by_tag.count(cursor.peek().text)) {
    term.text = std::string(cursor.take().text);
    term.span = cursor.since(mark);
    return term;
  }
  const Subject subject = take_subject(work, cursor, after);
  if (subject.kind == Subject::Kind::unknown) return {};
  term.part = subject.part;
  if (subject.kind == Subject::Kind::solenoid) term.solenoid = subject.name;
  term.state = take_state(cursor);
  term.span = cursor.since(mark);
  return term;
}

std::vector<std::vector<ControlRule::Term>> read_condition(WorkReading& work, Cursor& cursor, std::string_view after) {
  std::vector<std::vector<RuleTerm>> any{{}};
  while (true) {
    const auto term = read_term(work, cursor, after);
    if (!term) {
      cursor.skip_all();
      return {};
    }
    any.back().push_back(*term);
    if (cursor.take_word("and")) continue;
    if (!cursor.take_word("or")) return any;
    any.emplace_back();
  }
}

void read_control(WorkReading& work, Cursor& cursor) {
  ControlRule rule;
  rule.span = cursor.whole();
  const std::size_t before = work.reading.messages.size();
  if (cursor.take_word("never"))
    read_never(work, cursor, rule);
  else
    read_command_rule(work, cursor, rule);
  used_up(work.reading, cursor, "this rule");
  if (work.reading.messages.size() == before)
    for (const auto& all : rule.any_of_all)
      for (const RuleTerm& term : all) check_contact(work, term);
  // A rule that was not understood would switch things that the author did not mean.
  const bool complete = rule.kind == Kind::from_until ? rule.from.span != Span{} && rule.until.span != Span{} : !rule.any_of_all.empty();
  if (complete && rule.command.part && work.reading.messages.size() == before)
    work.circuit.work.control.push_back(std::move(rule));
}

}  // namespace ferrule
