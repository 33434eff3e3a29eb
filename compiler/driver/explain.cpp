// ferrule explain: why a rule exists, or how a result came about.
#include <fmt/format.h>

#include <algorithm>

#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/driver/pages.hpp"
#include "compiler/figures/board.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule explain pump-outlet-unprotected", "a rule by name"},
    {"ferrule explain P-01", "a rule by code, as findings print it"},
    {"ferrule explain T-05", "what a slip in the text is, and what to write"},
    {"ferrule explain press.fer 1A1.force", "the working of a result, in every state that has it"},
    {"ferrule explain press.fer \"1A1.speed in squeeze\"", "in one state"},
};

int refused(Talk& talk, const std::string& why) { return say(talk, why, exit_code::called_wrongly); }

int explain_pages(const std::vector<std::string>& words, Talk& talk) {
  const std::vector<Explained> all = all_explained();
  for (const std::string& word : words) {
    const Explained* one = explained(all, word);
    if (!one) return refused(talk, fmt::format("there is no rule {}{}; ferrule list rules names them", word, nearest_explained(all, word)));
    talk.out += one->page;
  }
  return exit_code::done;
}

// ---------------------------------------------------------------- results

// "1A1.speed in squeeze", also `during`: words joined by blanks.
struct Wanted {
  std::string where, what, state;
};

Wanted question_of(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 1; i < words.size(); ++i) text += (i > 1 ? " " : "") + words[i];
  Wanted question;
  for (std::string_view between : {" in ", " during "}) {
    const std::size_t at = text.find(between);
    if (at == text.npos) continue;
    question.state = text.substr(at + between.size());
    text.erase(at);
  }
  const std::size_t dot = text.rfind('.');
  question.where = text.substr(0, dot);
  if (dot != text.npos) question.what = text.substr(dot + 1);
  return question;
}

std::vector<std::string> places_of(const working::Book& book) {
  std::vector<std::string> names{"cycle", "oil"};
  for (const working::Subject& subject : book.subjects()) names.push_back(subject.where);
  for (const Step& step : book.circuit.work.steps) names.push_back(step.name);
  return names;
}

std::string words_of(const working::Book& book, working::Kind kind) {
  std::string text;
  for (std::string_view word : book.words_for(kind)) text += (text.empty() ? "" : ", ") + std::string(word);
  return text;
}

int explain_result(const working::Book& book, const Wanted& question, Talk& talk) {
  const auto subject = book.subject(question.where, question.what);
  if (!subject) return refused(talk, fmt::format("nothing is called {}{}", question.where, did_you_mean(question.where, places_of(book))));
  const auto words = book.words_for(subject->kind);
  if (std::find(words.begin(), words.end(), question.what) == words.end())
    return refused(talk, fmt::format("{} has no {}; it has {}", question.where, question.what.empty() ? "result without a word after a dot" : question.what,
                                 words_of(book, subject->kind)));
  std::vector<std::size_t> states = book.told();
  if (!question.state.empty()) {
    const auto state = book.state_named(question.state);
    if (!state) return refused(talk, fmt::format("there is no state {}{}", question.state, did_you_mean(question.state, told_names(book))));
    states = {*state};
  } else if (subject->kind == working::Kind::cycle || subject->kind == working::Kind::oil || subject->kind == working::Kind::step) {
    states.resize(1);
  }
  const std::string limit = too_many_results(book.circuit, states.size(), "ask for one, for example: \"1A1.speed in squeeze\"");
  if (!limit.empty()) return refused(talk, limit);
  std::string text;
  for (std::size_t state : states) text += (text.empty() ? "" : "\n") + working::on_a_board(book.result(*subject, question.what, state));
  talk.out += without_log_commands(safe_lines(text));
  return exit_code::done;
}

int run_explain(const Call& call, Talk& talk) {
  const std::string& first = call.files.front();
  if (call.files.size() < 2 || explained(all_explained(), first)) {
    if (first.ends_with(".fer")) return refused(talk, fmt::format("explain needs a result, for example: ferrule explain {} 1A1.force", first));
    return explain_pages(call.files, talk);
  }
  const Compiled one = compiled(first, talk);
  if (!one.compilation || one.compilation->unreadable) return exit_code::unreadable;
  if (has_faults(one, talk)) return exit_code::found;
  const Computed results = computed(one.compilation->circuit);
  return explain_result(*results.book, question_of(call.files), talk);
}

}  // namespace

extern const Verb explain_verb;
const Verb explain_verb{"explain", "RULE | FILE RESULT", "say why a rule exists, or work out a result as on a board", examples, {}, run_explain};

}  // namespace ferrule
