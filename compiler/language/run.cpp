#include "compiler/language/run.hpp"

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

constexpr std::string_view words[] = {"pressure", "working", "return", "suction", "drain", "pilot", "mechanical"};

// A hyphen binds inside a word, so `GI1.1-2` comes as one: the way from port 1 to port 2.
void part_at_hyphen(RunStepText& step) {
  const std::size_t dot = step.word.rfind('.');
  const std::size_t hyphen = dot == std::string::npos ? dot : step.word.find('-', dot);
  if (hyphen == std::string::npos) return;
  step.to = step.word.substr(hyphen + 1);
  step.word.resize(hyphen);
}

// `hose DN 16 -- 1A1.A`: a pipe whose braces are missing. Told, up to the next dash.
bool report_bare_pipe(Reading& reading, Cursor& cursor, Library& library) {
  const Definition* kind = cursor.at(TermKind::word) && !cursor.at(TermKind::dash, 1) && cursor.left() > 1 ? library.definition(cursor.peek().text) : nullptr;
  if (!kind || !kind->is_pipe) return false;
  const std::size_t mark = cursor.mark();
  while (!cursor.done() && !cursor.at(TermKind::dash)) cursor.take();
  const Span whole = cursor.since(mark);
  reading.report(fault::pipe_broken, whole, "a pipe stands in braces", fmt::format("write `{{{}}}`", reading.text(whole)));
  return true;
}

// P, T, LS, 1: capitals alone or a number, as ports are named; a tag has more to it.
bool is_bare_port(const Cursor& cursor) {
  if (cursor.at(TermKind::number)) return cursor.peek().text.find_first_not_of("0123456789") == std::string_view::npos;
  const std::string_view word = cursor.at(TermKind::word) ? cursor.peek().text : std::string_view{};
  return !word.empty() && word.size() <= 3 && word.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == std::string_view::npos;
}

// `0V1 T`: read as `0V1.T`, and told.
void take_parted_port(Reading& reading, Cursor& cursor, RunStepText& step) {
  if (!is_bare_port(cursor) || step.word.find('.') != std::string::npos) return;
  const std::string meant = step.word + "." + std::string(cursor.take().text);
  step.span = joined(step.span, cursor.since(cursor.mark() - 1));
  reading.report(fault::run_broken, step.span, "between a tag and its port stands a dot", fmt::format("write `{}`", meant));
  step.word = meant;
}

// `0V1.T - 0Z1`: one dash where two are meant. Told, and taken as if both stood there.
bool take_single_dash(Reading& reading, Cursor& cursor) {
  const bool apart = cursor.at_sign("-") && cursor.peek().space_before && cursor.peek(1).space_before;
  if (!apart) return false;
  reading.report(fault::run_broken, cursor.here(), "between the ends of a run stand two dashes", "write `--`");
  cursor.take();
  return true;
}

std::optional<RunStepText> read_step(Reading& reading, Cursor& cursor, Library& library) {
  RunStepText step;
  step.span = cursor.here();
  if ((step.pipe = cursor.take_block())) return step;
  if (report_bare_pipe(reading, cursor, library)) return {};
  step.word = take_name(cursor);
  if (step.word.empty()) {
    if (!cursor.at(TermKind::broken) || cursor.done())
      reading.report(fault::run_broken, cursor.here(), "a port, a part or a pipe is missing here", "write an end as `0P1.P`, or a pipe in braces");
    return {};
  }
  take_parted_port(reading, cursor, step);
  const bool way = cursor.at_sign("-") && !(cursor.peek().space_before && cursor.peek(1).space_before);
  if (cursor.at_sign(">") || way || cursor.at_sign("<>") || cursor.at_sign("|>")) {
    cursor.take();
    step.to = take_name(cursor);
    step.span = joined(step.span, cursor.since(cursor.mark() - 1));
  } else {
    part_at_hyphen(step);
  }
  return step;
}

// Skips to the next dash; false when there is none.
bool next_dash(Cursor& cursor) {
  while (!cursor.done() && !cursor.at(TermKind::dash)) cursor.take();
  return cursor.take_kind(TermKind::dash) != nullptr;
}

// What stands behind a step before the next dash has no place there.
void want_dash(Reading& reading, Cursor& cursor) {
  if (cursor.done() || cursor.at(TermKind::dash)) return;
  const bool broken = cursor.at(TermKind::broken);
  if (!broken)
    reading.report(fault::run_broken, cursor.here(), fmt::format("`--` is missing before `{}`", reading.quoted(cursor.here())),
                   "write `--` between what the oil passes");
}

void read_steps(Reading& reading, Cursor& cursor, RunText& run, Library& library) {
  bool told = false;
  do {
    const std::size_t before = reading.messages.size();
    if (auto step = read_step(reading, cursor, library)) run.steps.push_back(std::move(*step));
    else run.steps.push_back({}), run.broken = true;  // a gap: what stands at its sides is not joined over it
    if (!take_single_dash(reading, cursor) && reading.messages.size() == before) want_dash(reading, cursor);
    if (told && reading.messages.size() > before) reading.messages.resize(before);  // one slip tears a run in several places
    told = told || reading.messages.size() > before;
    // What stands there without a dash is joined all the same: the message tells of the dash, not of open ports.
    while (!cursor.done() && (cursor.at(TermKind::word) || cursor.at(TermKind::block)) && !run.broken)
      if (auto step = read_step(reading, cursor, library); step && step->word != run.steps.back().word) run.steps.push_back(std::move(*step));
  } while (next_dash(cursor));
}

std::vector<std::string> function_words() { return {std::begin(words), std::end(words)}; }

}  // namespace

std::optional<LineFunction> function_named(std::string_view word) {
  for (std::size_t i = 0; i < std::size(words); ++i)
    if (words[i] == word) return static_cast<LineFunction>(i);
  return {};
}

RunText read_run(Reading& reading, const Statement& statement, Library& library) {
  Cursor cursor(*statement.tree, *statement.item);
  RunText run;
  run.tree = statement.tree;
  run.span = statement.span();
  run.broken = statement.item->broken;
  run.function_span = cursor.here();
  const std::size_t before = reading.messages.size();
  if (const auto function = function_named(cursor.peek().text)) {
    run.function = *function;
    const std::string word(cursor.take().text);
    if (cursor.at_word(word) && reading.messages.size() == before) {
      reading.report(fault::words_left_over, cursor.here(), fmt::format("`{}` stands twice", word), "leave one of them out");
      cursor.take();
    }
  } else if (cursor.at(TermKind::word) && !cursor.at(TermKind::dash, 1) && !cursor.at(TermKind::sign, 1) && cursor.left() > 1) {
    reading.report(fault::run_function_missing, cursor.here(), fmt::format("`{}` is no function of a line", cursor.peek().text),
                   write_instead(cursor.peek().text, function_words(), "write " + listed(function_words())));
    cursor.take();
    if (function_named(cursor.peek().text)) cursor.take();  // end and function were exchanged
  } else {
    reading.report(fault::run_function_missing, {run.span.file, run.span.begin, run.span.begin},
                   "the run does not say what the line is for",
                   "begin it with `pressure`, `working`, `return`, `suction`, `drain` or `pilot`");
  }
  read_steps(reading, cursor, run, library);
  if (run.steps.size() < 2 && !run.broken && reading.messages.size() == before)
    reading.report(fault::run_broken, run.span, "a run needs two ends", "write `pressure 0P1.P -- 1V1.P`");
  run.broken = run.broken || reading.messages.size() > before;  // one slip tears a run in several places
  return run;
}

}  // namespace ferrule
