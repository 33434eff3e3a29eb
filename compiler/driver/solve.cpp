// ferrule solve: pressures, flows, speeds, forces, heat of every state, and what the cycle adds up to.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "checks/report/cautions.hpp"
#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/figures/requirement.hpp"
#include "compiler/figures/side_by_side.hpp"
#include "compiler/figures/tables.hpp"
#include "render/plots/pages.hpp"

namespace ferrule {
namespace {

std::string ending_of(const std::string& path) { return std::filesystem::path(path).extension().string(); }

using working::Book;
using working::Judged;

constexpr Example examples[] = {
    {"ferrule solve press.fer", "tables of every state and of the cycle; exit code 1 if a requirement fails"},
    {"ferrule solve press.fer --state squeeze", "one state"},
    {"ferrule solve closed.fer open.fer tandem.fer --state waiting", "several circuits, then one table with all of them side by side"},
    {"ferrule solve press.fer --report json=press.json", "the same for programs, with a published schema"},
    {"ferrule solve press.fer --plot press.pdf", "and diagrams: displacement, pressure, flow, power over the cycle, pump curves, heat"},
};
constexpr Option options[] = {
    {"--state", "NAME", "only this state and the requirements that speak of it"},
    {"--report", "FORMAT[=PATH]", "text or json; may be given several times"},
    {"--plot", "PATH", "diagrams of one file's cycle, pumps and heat; ends with .pdf, .svg or .png"},
};

std::string state_as_text(const Book& book, std::size_t index) {
  const State& state = book.states[index];
  const OperatingPoint& point = book.point(index);
  std::string text = fmt::format("{} ({})\n", state.name, word_of(state.state_class));
  if (!point.settled) {
    if (point.alternating.empty() && !point.notes.empty()) return text + "  no numbers: " + point.notes.front() + "\n";
    text += "  does not settle, so it has no numbers";
    for (std::size_t i = 0; i < point.alternating.size(); ++i) text += (i ? ", " : ": ") + point.alternating[i];
    return text + (point.alternating.empty() ? "\n" : " alternate\n");
  }
  for (const working::TableOf& table : working::tables_of(book, index)) text += working::as_text(table);
  text += "  " + working::power_sentence(book, index) + "\n";
  for (const std::string& note : point.notes) text += "  note: " + note + "\n";
  for (const std::string& assumed : point.defaults) text += "  assumed: " + assumed + "\n";
  return text;
}

std::string requirements_as_text(const std::vector<Judged>& all) {
  std::string text;
  for (const Judged& one : all)
    text += fmt::format("  {:<9}{}\n", one.outcome == Judged::Outcome::met ? "met" : one.outcome == Judged::Outcome::failed ? "failed" : "no value", one.sentence());
  return text.empty() ? text : "requirements\n" + text;
}

// None: all states.
std::optional<std::size_t> only_state(const Book& book, const std::string& wanted) { return wanted.empty() ? std::nullopt : book.state_named(wanted); }

std::string as_text(const SolvedFile& file, const std::string& wanted) {
  const Book& book = *file.book;
  std::string text = fmt::format("{}{}\n", file.file, file.circuit.empty() ? "" : ": " + file.circuit);
  const auto only = only_state(book, wanted);
  for (std::size_t index : only ? std::vector{*only} : book.told()) text += "\n" + state_as_text(book, index);
  if (!only) {
    for (const working::TableOf& table : working::tables_of_cycle(book)) text += "\n" + working::as_text(table);
    text += working::cycle_sentences(book);
  }
  const std::string requirements = requirements_as_text(working::judged_requirements(book, only));
  if (!requirements.empty()) text += "\n" + requirements;
  for (const std::string& caution : file.cautions) text += "\ncare: " + caution;
  return text + "\n";
}

// What several circuits come to in states of one name; empty for one circuit.
std::string compared(const std::vector<SolvedFile>& files, const std::string& wanted) {
  std::vector<working::Compared> circuits;
  for (const SolvedFile& file : files) circuits.push_back({file.file, file.book});
  std::string text;
  for (const working::TableOf& table : working::side_by_side(circuits, wanted)) text += "\n" + working::as_text(table);
  return text;
}

struct Wish {
  std::string format, path;
};

std::vector<Wish> wishes_of(const Call& call, std::string& fault) {
  const auto given = call.options.find("--report");
  if (given == call.options.end()) return {{"text", ""}};
  std::vector<Wish> wishes;
  for (const std::string& word : given->second) {
    const std::size_t sign = word.find('=');
    wishes.push_back({word.substr(0, sign), sign == word.npos ? "" : word.substr(sign + 1)});
    if (wishes.back().format != "text" && wishes.back().format != "json") fault = fmt::format("--report is text or json, not {}", word);
  }
  return wishes;
}

int fails(const Book& book, std::optional<std::size_t> only) {
  for (const Judged& one : working::judged_requirements(book, only))
    if (one.outcome != Judged::Outcome::met) return exit_code::found;
  for (std::size_t state : only ? std::vector{*only} : book.told())
    if (!book.point(state).settled) return exit_code::found;
  return exit_code::done;
}

int put(const std::vector<SolvedFile>& files, const std::vector<Wish>& wishes, const std::string& wanted, Talk& talk) {
  const bool json_on_output = std::any_of(wishes.begin(), wishes.end(), [](const Wish& w) { return w.format == "json" && w.path.empty(); });
  int code = exit_code::done;
  for (const Wish& wish : wishes) {
    std::string bytes;
    if (wish.format == "json") {
      bytes = results_as_json(files, wanted);
    } else {
      for (const SolvedFile& file : files) bytes += without_log_commands(safe_lines(as_text(file, wanted)));
      bytes += without_log_commands(safe_lines(compared(files, wanted)));
    }
    if (wish.path.empty()) {
      (wish.format == "text" && json_on_output ? talk.err : talk.out) += bytes;
    } else {
      code = std::max(code, put_file(wish.path, bytes, talk));
    }
  }
  return code;
}

std::string fault_of_plot(const std::string& path, std::size_t files) {
  if (path.empty()) return {};
  if (files != 1) return "--plot shows one file; give one";
  const std::string ending = ending_of(path);
  return ending == ".pdf" || ending == ".svg" || ending == ".png" ? std::string() : fmt::format("{} does not end with .pdf, .svg or .png", path);
}

int put_plots(const SolvedFile& file, const std::string& path, Talk& talk) {
  const DrawnFile drawn = plots::plots_file(plots::plots_of(*file.book, file.file), ending_of(path), talk.source_date_epoch);
  return drawn.error.empty() ? put_file(path, drawn.bytes, talk) : say(talk, drawn.error, exit_code::not_written);
}

int run_solve(const Call& call, Talk& talk) {
  std::string fault;
  const std::vector<Wish> wishes = wishes_of(call, fault);
  const std::string wanted = call.value("--state");
  const std::string plot = call.value("--plot");
  if (fault.empty()) fault = fault_of_plot(plot, call.files.size());
  if (!fault.empty()) return say(talk, fault, exit_code::called_wrongly);
  int code = exit_code::done;
  std::vector<Compiled> kept;
  std::vector<Computed> books;
  std::vector<SolvedFile> files;
  for (const std::string& path : call.files) {
    Compiled one = compiled(path, talk);
    if (!one.compilation || one.compilation->unreadable) code = std::max(code, exit_code::unreadable);
    if (!one.compilation) continue;
    if (has_faults(one, talk)) {
      code = std::max(code, exit_code::found);
      continue;
    }
    const Circuit& circuit = one.compilation->circuit;
    books.push_back(computed(circuit));
    files.push_back({one.file, circuit.title, books.back().book.get(), cautions_for(circuit)});
    kept.push_back(std::move(one));
    if (!wanted.empty() && !files.back().book->state_named(wanted))
      return say(talk, fmt::format("there is no state {}{}", wanted, did_you_mean(wanted, told_names(*files.back().book))), exit_code::called_wrongly);
    const Book& book = *files.back().book;
    const std::string limit = wanted.empty() ? too_many_results(circuit, book.told().size(), "ask for one with --state") : std::string();
    if (!limit.empty()) return say(talk, fmt::format("{}: {}", path, limit), exit_code::called_wrongly);
    code = std::max(code, fails(book, only_state(book, wanted)));
  }
  if (files.empty()) return code;
  code = std::max(code, put(files, wishes, wanted, talk));
  return plot.empty() ? code : std::max(code, put_plots(files.front(), plot, talk));
}

}  // namespace

Computed computed(const Circuit& circuit) {
  Computed out;
  out.states = states_of(circuit);
  out.points = std::make_unique<Points>(circuit, out.states.states);
  out.book = std::make_unique<Book>(circuit, out.states.states, *out.points);
  return out;
}

std::string too_many_results(const Circuit& circuit, std::size_t states, std::string_view instead) {
  constexpr std::size_t most = 4'000'000;  // a page of text each would be a library; kept at once, some hundred megabytes
  const std::size_t results = circuit.parts.size() * states;
  if (results <= most) return {};
  return fmt::format("{} parts in {} states are more results than are told at once ({}); {}", circuit.parts.size(), states, most, instead);
}

std::vector<std::string> told_names(const Book& book) {
  std::vector<std::string> names;
  for (std::size_t index : book.told()) names.push_back(book.states[index].name);
  return names;
}

extern const Verb solve_verb;
const Verb solve_verb{"solve", "FILES", "compute pressures, flows, speeds, forces, heat of every state", examples, options, run_solve};

}  // namespace ferrule
