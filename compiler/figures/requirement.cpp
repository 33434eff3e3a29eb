#include "compiler/figures/requirement.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "compiler/language/results.hpp"
#include "compiler/states/control.hpp"

namespace ferrule::working {
namespace {

constexpr double rounding = 1e-9;
constexpr double same_to_the_eye = 5e-4;  // `is 12 L/min` without a tolerance: to the digits that are shown

using Outcome = Judged::Outcome;

// "1A1", "speed", "+", "2A1", "speed": addresses apart, where and what apart.
struct One {
  std::string where, what;
};
std::vector<One> split(const std::vector<std::string>& segments) {
  std::vector<One> out;
  std::vector<std::string> part;
  const auto put = [&] {
    if (part.size() < 2) return;
    std::string where = part.front();
    for (std::size_t i = 1; i + 1 < part.size(); ++i) where += "." + part[i];
    out.push_back({where, part.back()});
    part.clear();
  };
  for (const std::string& segment : segments)
    if (segment == "+") put();
    else part.push_back(segment);
  put();
  return out;
}

bool is_of_cycle(const Book& book, const One& one) {
  const auto subject = book.subject(one.where, one.what);
  return subject && (subject->kind == Kind::cycle || subject->kind == Kind::oil || subject->kind == Kind::step);
}

std::vector<std::string> words_between(const std::string& text, std::string_view between) {
  std::vector<std::string> out;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find(between, from), text.size());
    if (end > from) out.push_back(text.substr(from, end - from));
    from = end + between.size();
  }
  return out;
}

bool names_step(const Book& book, std::size_t state, const std::string& name) {
  const State& s = book.states[state];
  return s.step && book.circuit.work.steps[s.step].name == name;
}

// `from press until open`: steps from the first to before the second, round the end of the cycle.
bool lies_between(const Book& book, std::size_t state, const Requirement& requirement) {
  const State& s = book.states[state];
  if (!s.step) return false;
  std::size_t from = 0, to = book.circuit.work.steps.size();
  for (std::size_t i = 0; i < book.circuit.work.steps.size(); ++i) {
    if (book.circuit.work.steps.rows[i].name == requirement.from) from = i;
    if (book.circuit.work.steps.rows[i].name == requirement.to) to = i;
  }
  const std::size_t here = s.step.index;
  return from <= to ? here >= from && here < to : here >= from || here < to;
}

double compared(const Value& value, double wanted) { return wanted < 0 ? *value.si : std::fabs(*value.si); }

bool is_met(const std::string& comparison, double value, const std::vector<Quantity>& wanted) {
  const double first = wanted[0].si, slack = rounding * std::max(std::fabs(first), std::fabs(value));
  if (comparison == "at most") return value <= first + slack;
  if (comparison == "at least") return value >= first - slack;
  if (comparison == "between") return value >= first - slack && value <= wanted[1].si + slack;
  double tolerance = same_to_the_eye * std::fabs(first);
  if (wanted.size() > 1) tolerance = wanted[1].dimension == dimension::none && wanted[0].dimension != dimension::none ? wanted[1].si * std::fabs(first) : wanted[1].si;
  return std::fabs(value - first) <= tolerance + slack;
}

// How far it is from failing; the smallest is the worst.
double margin_of(const Requirement& r, double value) {
  const double first = r.values[0].si;
  if (r.comparison == "at most") return first - value;
  if (r.comparison == "at least") return value - first;
  if (r.comparison == "between") return std::min(value - first, r.values[1].si - value);
  return -std::fabs(value - first);
}

bool conditions_hold(const Book& book, std::size_t state, const Requirement& requirement) {
  const Signals signals = signals_at_start(book.circuit);
  const ferrule::Moment moment{book.circuit, book.states[state], signals};
  for (const ControlRule::Term& term : requirement.conditions)
    if (!holds(moment, term)) return false;
  for (const auto& bound : requirement.bounds) {
    for (const One& one : split(bound.address)) {
      const auto subject = book.subject(one.where, one.what);
      const Worked worked = subject ? book.result(*subject, one.what, state) : Worked{};
      if (worked.values.empty() || !worked.result().si) return false;
      if (!is_met(bound.comparison, compared(worked.result(), bound.value.si), {bound.value})) return false;
    }
  }
  return true;
}

// The sum of all addresses in one state.
Value sum_in(const Book& book, const std::vector<One>& all, std::size_t state) {
  Value sum;
  for (const One& one : all) {
    const auto subject = book.subject(one.where, one.what);
    if (!subject) {
      sum.si.reset(), sum.why_none = fmt::format("{} has no results", one.where);
      return sum;
    }
    const Value value = book.result(*subject, one.what, state).result();
    if (!value.si) return value;
    if (all.size() == 1) return value;
    sum.dimension = value.dimension;
    sum.si = sum.si.value_or(0) + *value.si;
  }
  return sum;
}

std::string wanted_of(const Requirement& r) {
  const auto show = [](const Quantity& q) { return ferrule::shown(q); };
  if (r.comparison == "between") return fmt::format("between {} and {}", show(r.values[0]), show(r.values[1]));
  const bool share = r.values.size() > 1 && r.values[1].dimension == dimension::none && r.values[0].dimension != dimension::none;
  if (r.comparison == "within") return fmt::format("{} within {}", show(r.values[0]), share ? fmt::format("{:g} %", r.values[1].si * 100) : show(r.values[1]));
  return r.comparison + " " + show(r.values[0]);
}

void judge_in(const Book& book, const std::vector<One>& all, const std::vector<std::size_t>& states, bool of_cycle, Judged& judged) {
  const Requirement& r = *judged.requirement;
  double worst = std::numeric_limits<double>::infinity();
  for (std::size_t state : states) {
    const Value value = sum_in(book, all, state);
    if (!value.si) {
      if (judged.outcome == Outcome::no_value && judged.value.why_none.empty()) judged.value = value, judged.state = of_cycle ? "" : book.states[state].name;
      continue;
    }
    const double number = compared(value, r.values[0].si), margin = margin_of(r, number);
    if (margin >= worst) continue;
    worst = margin;
    judged.value = value, judged.value.si = number, judged.state = of_cycle ? "" : book.states[state].name;
    judged.outcome = is_met(r.comparison, number, r.values) ? Outcome::met : Outcome::failed;
  }
}

}  // namespace

std::string Judged::sentence() const {
  const std::string where = state.empty() ? "" : " during " + state;
  if (outcome == Outcome::no_value) return fmt::format("{} has no value{}: {}", address, where, value.why_none);
  return fmt::format("{} is {}{}; {} is required", address, ferrule::shown(Quantity{*value.si, value.dimension}), where, wanted);
}

std::vector<std::size_t> states_meant(const Book& book, const Requirement& requirement, std::optional<std::size_t> only) {
  std::vector<std::size_t> out;
  const auto steps = words_between(requirement.during, " and ");
  for (std::size_t state : only ? std::vector{*only} : book.told()) {
    const bool meant = steps.empty() || std::any_of(steps.begin(), steps.end(), [&](const std::string& s) { return names_step(book, state, s); });
    const bool between = requirement.from.empty() || lies_between(book, state, requirement);
    if (meant && between && conditions_hold(book, state, requirement)) out.push_back(state);
  }
  return out;
}

std::vector<Judged> judged_requirements(const Book& book, std::optional<std::size_t> only) {
  std::vector<Judged> out;
  for (const Requirement& requirement : book.circuit.requirements) {
    Judged judged;
    judged.requirement = &requirement;
    judged.wanted = wanted_of(requirement);
    const std::vector<One> all = split(requirement.address);
    for (const One& one : all) {
      judged.addresses.push_back(one.where + "." + one.what);
      judged.address += (judged.address.empty() ? "" : " + ") + judged.addresses.back();
    }
    const bool of_cycle = !all.empty() && std::all_of(all.begin(), all.end(), [&](const One& one) { return is_of_cycle(book, one); });
    if (of_cycle && only) continue;
    const std::vector<std::size_t> states = of_cycle ? std::vector<std::size_t>{0} : states_meant(book, requirement, only);
    if (states.empty() && only) continue;
    judge_in(book, all, states, of_cycle, judged);
    if (states.empty()) judged.value.why_none = "no state fulfils what the requirement asks for";
    out.push_back(std::move(judged));
  }
  return out;
}

}  // namespace ferrule::working
