// ferrule paths: which way the oil can run in every state.
#include <fmt/format.h>

#include <algorithm>

#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule paths press.fer", "a paragraph for every state: joined ports, lines fed, returned, blocked, trapped"},
    {"ferrule paths press.fer --state squeeze", "one state"},
};
constexpr Option options[] = {{"--state", "NAME", "only this state"}};

int run_paths(const Call& call, Talk& talk) {
  int code = exit_code::done;
  for (const std::string& file : call.files) {
    const Compiled one = compiled(file, talk);
    if (!one.compilation || one.compilation->unreadable) code = exit_code::unreadable;
    if (!one.compilation) continue;
    if (has_faults(one, talk)) {
      code = std::max(code, exit_code::found);
      continue;
    }
    const Circuit& circuit = one.compilation->circuit;
    const PassageGraph graph = passages_of(circuit);
    const States states = states_of(circuit);
    const std::string wanted = call.value("--state");
    const std::string limit = wanted.empty() ? too_many_results(circuit, states.states.size(), "ask for one with --state") : std::string();
    if (!limit.empty()) return say(talk, fmt::format("{}: {}", file, limit), exit_code::called_wrongly);
    std::string words;
    std::vector<std::string> names;
    for (const State& state : states.states) {
      names.push_back(state.name);
      if (wanted.empty() || wanted == state.name) words += in_words(circuit, paths_in(circuit, graph, state)) + "\n";
    }
    if (words.empty() && !wanted.empty()) return say(talk, fmt::format("there is no state {}{}", wanted, did_you_mean(wanted, names)), exit_code::called_wrongly);
    if (states.dropped) words += fmt::format("{} more states were not listed\n", states.dropped);
    talk.out += without_log_commands(safe_lines(words));
  }
  return code;
}

}  // namespace

extern const Verb paths_verb;
const Verb paths_verb{"paths", "FILES", "say which way the oil can run in every state", examples, options, run_paths};

}  // namespace ferrule
