// ferrule mark: do students' circuits do what the model does?
#include <fmt/format.h>

#include <charconv>

#include "checks/marking/marks.hpp"
#include "checks/report/cautions.hpp"
#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/outputs.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule mark model.fer kim.fer", "what the circuit of one student does otherwise, state by state, and the likely cause"},
    {"ferrule mark model.fer class/ --table class.csv", "a folder of them, with a table for the class"},
};
constexpr Option options[] = {
    {"--table", "PATH", "marks, states and causes of all students as CSV; - for standard output"},
    {"--tolerance", "PERCENT", "by which pressures, speeds and forces may differ (10)"},
};
constexpr std::string_view care =
    "care: marks compare computed behaviour; they do not make a circuit safe to build. ISO 4413, local rules and the qualified person in charge decide.\n";

// None when it is no share between 0 and 100 %.
std::optional<double> tolerance_of(std::string_view text) {
  if (text.ends_with('%')) text.remove_suffix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  double percent = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), percent);
  if (fault != std::errc() || end != text.data() + text.size() || !(percent >= 0 && percent <= 100)) return {};
  return percent / 100;
}

struct Candidate {
  std::string name;
  Compiled compiled;
  Checked checked;
};

// None when there is nothing to compare; that was said.
std::optional<Candidate> candidate(const std::string& path, Talk& talk, int& code) {
  Candidate out{path, compiled(path, talk), {}};
  if (!out.compiled.compilation || out.compiled.compilation->unreadable) code = std::max(code, exit_code::unreadable);
  if (!out.compiled.compilation) return {};
  if (has_faults(out.compiled, talk)) {
    code = std::max(code, exit_code::found);
    return {};
  }
  const Circuit& circuit = out.compiled.compilation->circuit;
  if (const std::string limit = too_many_results(circuit, states_of(circuit).states.size(), cut_it_up); !limit.empty()) {
    code = std::max(code, say(talk, fmt::format("{}: {}", path, limit), exit_code::called_wrongly));
    return {};
  }
  out.checked = judged(out.compiled, talk.today);
  return out;
}

marking::Judgement judgement(const Candidate& one) { return {one.compiled.compilation->circuit, one.checked.messages}; }

int run_mark(const Call& call, Talk& talk) {
  if (call.files.size() < 2)
    return say(talk, "mark needs a model and at least one circuit to compare, for example: ferrule mark model.fer kim.fer", exit_code::called_wrongly);
  const std::optional<double> tolerance = tolerance_of(call.value("--tolerance", "10"));
  if (!tolerance) return say(talk, fmt::format("--tolerance is a share from 0 to 100 %, not {}", call.value("--tolerance")), exit_code::called_wrongly);
  int code = exit_code::done;
  const auto model = candidate(call.files.front(), talk, code);
  if (!model) return code;
  std::vector<std::pair<std::string, marking::Mark>> marks;
  for (std::size_t i = 1; i < call.files.size(); ++i) {
    const std::vector<std::string> meant = files_meant(call.files[i]);
    if (meant.empty()) code = std::max(code, say(talk, fmt::format("{} holds no .fer file", call.files[i]), exit_code::unreadable));
    for (const std::string& path : meant) {
      const auto student = candidate(path, talk, code);
      if (!student) {
        talk.out += fmt::format("{}: not marked; why is said on standard error\n\n", safe(path));
        continue;
      }
      marks.emplace_back(path, marking::mark(judgement(*model), judgement(*student), {*tolerance, talk.today}));
      if (!marks.back().second.differences.empty()) code = std::max(code, exit_code::found);
      talk.out += without_log_commands(safe_lines(marking::page(path, marks.back().second))) + "\n";
    }
  }
  talk.out += care;
  return call.has("--table") ? std::max(code, put_file(call.value("--table"), marking::class_table(marks), talk)) : code;
}

}  // namespace

extern const Verb mark_verb;
const Verb mark_verb{"mark", "MODEL STUDENTS", "compare circuits of a class with a model by what they do", examples, options, run_mark};

}  // namespace ferrule
