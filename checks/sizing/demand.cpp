#include "checks/sizing/demand.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "compiler/figures/requirement.hpp"

namespace ferrule::sizing {
namespace {

using working::Kind;
using working::Subject;

std::optional<double> required(const Basis& basis, const std::string& address, std::size_t state, std::string_view comparison) {
  std::optional<double> strictest;
  for (const working::Judged& judged : working::judged_requirements(basis.book)) {
    const Requirement& r = *judged.requirement;
    const bool both = r.comparison == "between" && r.values.size() > 1;
    if ((r.comparison != comparison && !both) || judged.addresses != std::vector{address}) continue;
    const auto states = working::states_meant(basis.book, r);
    if (std::find(states.begin(), states.end(), state) == states.end()) continue;
    const double value = both && comparison == "at most" ? r.values[1].si : r.values.front().si;
    strictest = !strictest ? value : comparison == "at least" ? std::max(*strictest, value) : std::min(*strictest, value);
  }
  return strictest;
}

const working::Value* line_of(const working::Worked& worked, std::string_view symbol) {
  for (const working::Value& value : worked.values)
    if (value.symbol == symbol) return &value;
  return nullptr;
}

double number_of(const working::Worked& worked, std::string_view symbol) {
  const working::Value* value = line_of(worked, symbol);
  return value && value->si ? *value->si : std::nan("");
}

const Motion* motion_in(const Basis& basis, const Subject& actuator, std::size_t state) {
  return working::stated_motion(basis.book.states[state], *actuator.body);
}

// Of several that move at once the lighter goes first, and the pressure rises for the others when it has come to its end:
// what they can be brought up with is what stands when all of them stand. Left as it is where that has no value.
void put_standing(const Basis& basis, const Subject& actuator, std::size_t state, double& p_a, double& p_b) {
  State standing = basis.book.states[state];
  if (std::count_if(standing.motions.begin(), standing.motions.end(), [](const Motion& m) { return m.moves(); }) < 2) return;
  for (Motion& motion : standing.motions)
    if (motion.moves()) motion.kind = Motion::Kind::presses;
  const OperatingPoint point = basis.solved.points.solver().at(standing);
  const auto& ends = basis.circuit().elements[actuator.element].ends;
  const auto at = [&](std::size_t end) { return point.settled && end < ends.size() && ends[end] ? point.pressure[ends[end].index] : std::nan(""); };
  if (std::isnan(at(0)) && std::isnan(at(1))) return;
  p_a = at(0), p_b = at(1);
}

bool is_actuator(const Subject& subject) { return subject.kind == Kind::cylinder || subject.kind == Kind::motor; }

std::optional<Pace> pace_of(const Basis& basis, const Subject& actuator, std::size_t state) {
  const Motion* motion = motion_in(basis, actuator, state);
  if (!motion || !motion->moves()) return {};
  const auto now = basis.book.result(actuator, "speed", state).result().si;
  if (!now || *now == 0) return {};
  Pace pace;
  const auto wish = [&](double speed, std::string why) {
    if (speed / std::fabs(*now) > pace.factor || pace.why == Pace{}.why) pace = {speed / std::fabs(*now), std::move(why)};
  };
  const auto travel = basis.book.result(actuator, "travel", state).result().si;
  if (motion->lasts && travel) wish(*travel / motion->lasts->si, fmt::format("{} has to do its travel in {}", actuator.where, shown(*motion->lasts)));
  if (const auto speed = required_at_least(basis, actuator.where + ".speed", state)) wish(*speed, fmt::format("a speed of {} is required", actuator.where));
  if (const auto time = required_at_most(basis, actuator.where + ".time", state); time && travel) wish(*travel / *time, fmt::format("a time of {} is required", actuator.where));
  return pace;
}

// What moves has to do in less time than the cycle now takes for it, so that the whole is done in the time required.
std::optional<double> pace_of_cycle(const Basis& basis) {
  const auto wanted = required_at_most(basis, "cycle.time", 0);
  const working::CycleTotal& cycle = basis.book.cycle();
  if (!wanted || !cycle.time) return {};
  double moving = 0;
  for (const working::StepTotal& step : cycle.steps) {
    const auto& motions = basis.book.states[step.state].motions;
    if (std::any_of(motions.begin(), motions.end(), [](const Motion& m) { return m.moves() && !m.lasts; })) moving += step.time.value_or(0);
  }
  const double left = *wanted - (*cycle.time - moving);
  return moving > 0 && left > 0 ? std::optional(moving / left) : std::nullopt;
}

}  // namespace

std::optional<double> required_at_least(const Basis& basis, const std::string& address, std::size_t state) { return required(basis, address, state, "at least"); }
std::optional<double> required_at_most(const Basis& basis, const std::string& address, std::size_t state) { return required(basis, address, state, "at most"); }

std::vector<Task> tasks_of(const Basis& basis, const Subject& actuator) {
  std::vector<Task> tasks;
  const bool turns = actuator.kind == Kind::motor;
  for (std::size_t state : basis.book.told()) {
    const Motion* motion = motion_in(basis, actuator, state);
    if (!basis.book.point(state).settled || !motion || (!motion->moves() && motion->kind != Motion::Kind::presses)) continue;
    const working::Worked now = basis.book.result(actuator, "margin", state), force = basis.book.result(actuator, turns ? "torque" : "force", state);
    Task task;
    task.state = state;
    task.outward = motion->moves() ? motion->is_outward() : force.result().formula.find("p_A") < force.result().formula.find("p_B");
    if (const working::Value* load = line_of(now, turns ? "T_L" : "F_L"); load && load->si) task.load = *load->si, task.origin = load->origin;
    if (const auto wanted = required_at_least(basis, actuator.where + (turns ? ".torque" : ".force"), state); wanted && *wanted > task.load)
      task.load = *wanted, task.origin = "required";
    double p_a = number_of(force, "p_A"), p_b = number_of(force, "p_B");
    if (motion->moves()) put_standing(basis, actuator, state, p_a, p_b);
    task.fed = task.outward ? p_a : p_b, task.other = task.outward ? p_b : p_a;
    if (std::isnan(task.other)) task.other = 0;  // a side that breathes
    if (task.load > 0 && task.fed > 0) tasks.push_back(task);
  }
  return tasks;
}

std::optional<Pace> pace_of(const Basis& basis, std::size_t state) {
  std::optional<Pace> fastest;
  if (!basis.book.point(state).settled) return fastest;
  for (const Subject& subject : basis.book.subjects()) {
    if (!is_actuator(subject)) continue;
    const auto pace = pace_of(basis, subject, state);
    if (pace && (!fastest || pace->factor > fastest->factor || fastest->why == Pace{}.why)) fastest = pace;
  }
  if (!fastest || fastest->why != Pace{}.why) return fastest;
  const State& s = basis.book.states[state];
  if (s.step)
    if (const auto time = required_at_most(basis, basis.circuit().work.steps[s.step].name + ".time", 0))
      if (const auto now = basis.book.cycle().steps[s.step.index].time) return Pace{*now / *time, "the time of the step is required"};
  if (const auto factor = pace_of_cycle(basis)) return Pace{*factor, "the time of the cycle is required"};
  return fastest;
}

}  // namespace ferrule::sizing
