#include "checks/marking/marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "checks/marking/edits.hpp"

namespace ferrule::marking {
namespace {

constexpr std::array<double, aspects> shares{60, 15, 10, 10, 5};
constexpr double cap_when_unsafe = 50;
constexpr auto finding = static_cast<std::size_t>(Aspect::finding);

// ---------------------------------------------------------------- lost marks

// By state of the model, marks lost in it.
std::vector<double> lost_by_state(const Comparison& comparison, const std::array<double, aspects>& of, std::array<double, aspects>& lost) {
  std::array<std::size_t, aspects> asked{};
  for (const Compared& state : comparison.states)
    for (std::size_t a = 0; a < aspects; ++a) asked[a] += state.asked[a];
  std::vector<double> out;
  for (const Compared& state : comparison.states) {
    double sum = 0;
    for (std::size_t a = 0; a < aspects; ++a) {
      const double share = asked[a] ? of[a] * static_cast<double>(state.lost[a]) / static_cast<double>(asked[a]) : 0;
      lost[a] += share;
      sum += share;
    }
    out.push_back(sum);
  }
  return out;
}

std::array<double, aspects> shares_for(const Comparison& comparison) {
  std::array<double, aspects> of = shares;
  for (std::size_t a = 1; a < finding; ++a)
    if (std::none_of(comparison.states.begin(), comparison.states.end(), [&](const Compared& s) { return s.asked[a] > 0; })) of[0] += of[a], of[a] = 0;
  return of;
}

// ---------------------------------------------------------------- findings

// What the checks find in the student's circuit more often than in the model, by code.
std::vector<const Message*> new_findings(const Messages& model, const Messages& student) {
  std::map<std::string, std::size_t> known;
  const auto counts = [](const Message& m) { return m.severity != Severity::advice && m.accepted.empty() && m.masked_by.empty(); };
  for (const Message& m : model) known[m.code] += counts(m);
  std::vector<const Message*> out;
  for (const Message& m : student)
    if (counts(m) && known[m.code]-- == 0) {
      ++known[m.code];
      out.push_back(&m);
    }
  return out;
}

std::string_view without_stop(std::string_view sentence) { return sentence.ends_with('.') ? sentence.substr(0, sentence.size() - 1) : sentence; }

// Rules of protection have codes with P: what they find bursts.
void add_findings(Mark& out, const std::vector<const Message*>& findings) {
  for (const Message* m : findings) {
    const bool unsafe = m->severity == Severity::error && m->code.starts_with('P');
    out.differences.push_back({Aspect::finding, "", fmt::format("{}: {}.", m->code, without_stop(m->sentence)), unsafe});
  }
  if (!findings.empty()) out.got[finding] = 0;
}

// ---------------------------------------------------------------- the likely cause

struct Cause {
  std::string said;
  Comparison left;         // what still differs after the change
  std::size_t findings = 0;
  std::size_t open() const { return left.differences.size() + findings; }
};

struct Search {
  const Judgement& model;
  const Record& models;
  const Pairing& pairing;
  const Task& task;
};

Cause tried(const Search& in, const Circuit& changed, const std::string& said) {
  const Record record = record_of(changed);
  return {said, compared({in.model.circuit, in.models}, {changed, record}, in.pairing, in.task.tolerance), 0};
}

// None when no single change removes half of the differences.
std::optional<Cause> cause_of(const Search& in, const Circuit& student, std::size_t states, std::size_t differences, bool& gave_up) {
  std::optional<Cause> best;
  std::size_t spent = 0;
  for (const Edit& edit : edits_of(student, in.model.circuit)) {
    spent += states;
    if (spent > in.task.most_solutions) {
      gave_up = true;
      break;
    }
    Circuit changed = student;
    edit.make(changed);
    Cause cause = tried(in, changed, edit.said);
    const std::size_t bound = best ? best->open() : differences / 2 + 1;
    if (cause.open() >= bound) continue;
    cause.findings = new_findings(in.model.findings, check(changed, in.task.today).messages).size();
    if (cause.open() >= bound) continue;
    best = std::move(cause);
    if (best->open() == 0) break;
  }
  return best;
}

std::string in_words(const Cause& cause, std::size_t differences) {
  if (cause.open() == 0) return fmt::format("with {} nothing differs any more", cause.said);
  return fmt::format("with {} {} of {} differences are gone", cause.said, differences - cause.open(), differences);
}

// What the cause explains costs as much as in the state where it costs most.
double saved_by_cause(const std::vector<double>& before, const std::vector<double>& after) {
  double sum = 0, most = 0;
  for (std::size_t i = 0; i < before.size(); ++i) {
    const double explained = std::max(0.0, before[i] - after[i]);
    sum += explained;
    most = std::max(most, explained);
  }
  return sum - most;
}

std::vector<double> with(std::vector<double> lost, double more) {
  lost.push_back(more);
  return lost;
}

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

std::string given_back(const Mark& mark) {
  return mark.saved < 1 ? "" : fmt::format(" One cause costs once: {:.0f} marks are given back.", std::floor(mark.saved + 1e-9));
}

}  // namespace

Mark mark(const Judgement& model, const Judgement& student, const Task& task) {
  const Record models = record_of(model.circuit);
  Record students = record_of(student.circuit);
  const Pairing first = paired(model.circuit, models, student.circuit, students);
  const Circuit asked = under_the_task(student.circuit, model.circuit, students.actuators, models.actuators, first);
  students = record_of(asked);
  const Pairing pairing = paired(model.circuit, models, asked, students);
  const Comparison comparison = compared({model.circuit, models}, {asked, students}, pairing, task.tolerance);

  Mark out;
  out.of = shares_for(comparison);
  std::array<double, aspects> lost{};
  const std::vector<double> before = lost_by_state(comparison, out.of, lost);
  for (std::size_t a = 0; a < aspects; ++a) out.got[a] = out.of[a] - lost[a];
  out.differences = comparison.differences;
  const std::vector<const Message*> findings = new_findings(model.findings, student.findings);
  add_findings(out, findings);
  if (!out.differences.empty()) {
    const Search search{model, models, pairing, task};
    if (const auto cause = cause_of(search, asked, students.states.size(), out.differences.size(), out.gave_up)) {
      out.cause = in_words(*cause, out.differences.size());
      std::array<double, aspects> unused{};
      out.saved = saved_by_cause(with(before, findings.empty() ? 0 : out.of[finding]),
                                 with(lost_by_state(cause->left, out.of, unused), cause->findings == 0 ? 0 : out.of[finding]));
    }
  }
  const double total = std::accumulate(out.got.begin(), out.got.end(), out.saved);
  out.unsafe = std::any_of(out.differences.begin(), out.differences.end(), [](const Difference& d) { return d.unsafe; });
  out.total = std::floor(std::min(total, out.unsafe ? cap_when_unsafe : 100.0) + 1e-9);
  for (std::size_t i = 0; i < comparison.states.size(); ++i) {
    const auto& state = comparison.states[i];
    out.states.emplace_back(state.state, std::all_of(state.lost.begin(), state.lost.end(), [](std::size_t n) { return n == 0; }));
  }
  return out;
}

std::string page(const std::string& student, const Mark& mark) {
  std::string text = fmt::format("{}: {:.0f} of 100\n", student, mark.total);
  std::vector<std::string> parts;
  for (std::size_t a = 0; a < aspects; ++a)
    if (mark.of[a] > 0) parts.push_back(fmt::format("{} {:.0f} of {:.0f}", word_of(static_cast<Aspect>(a)), std::floor(mark.got[a] + 1e-9), mark.of[a]));
  text += fmt::format("  {}\n", fmt::join(parts, ", "));
  if (mark.differences.empty()) text += "  All states agree.\n";
  for (const Difference& difference : mark.differences) text += "  - " + difference.sentence + "\n";
  if (!mark.cause.empty()) text += fmt::format("  Likely cause: {}.{}\n", mark.cause, given_back(mark));
  else if (mark.gave_up) text += "  The search for one cause was given up: the circuit is too large for it.\n";
  if (mark.unsafe) text += fmt::format("  A safety finding is open: no more than {:.0f} marks.\n", cap_when_unsafe);
  return text;
}

std::string class_table(const std::vector<std::pair<std::string, Mark>>& students) {
  std::string text = "student,marks";
  if (!students.empty())
    for (const auto& [state, agrees] : students.front().second.states) text += "," + quoted(state);
  text += ",cause\r\n";
  for (const auto& [name, mark] : students) {
    text += fmt::format("{},{:.0f}", quoted(name), mark.total);
    for (const auto& [state, agrees] : mark.states) text += agrees ? ",yes" : ",no";
    const std::string first = mark.cause.empty() && !mark.differences.empty() ? mark.differences.front().sentence : mark.cause;
    text += "," + quoted(first) + "\r\n";
  }
  return text;
}

}  // namespace ferrule::marking
