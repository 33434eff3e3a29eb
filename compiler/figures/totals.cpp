#include "compiler/figures/totals.hpp"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

namespace ferrule::working {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

// The longest of its motions; a time that the step states counts where nothing moves, and holds at least that long.
void put_time(const Book& book, const Step& step, StepTotal& total) {
  if (step.lasts) total.time = step.lasts->si;
  for (const Subject& one : book.subjects()) {
    if (one.kind != Kind::cylinder && one.kind != Kind::motor) continue;
    const Motion* motion = stated_motion(book.states[total.state], *one.body);
    if (!motion || !motion->moves()) continue;
    const Worked time = book.result(one, "time", total.state);
    if (time.result().si) total.time = std::max(total.time.value_or(0), *time.result().si);
    else total.why_no_time = time.result().why_none;
  }
  for (const Motion& motion : step.motions)
    if (motion.lasts) total.time = std::max(total.time.value_or(0), motion.lasts->si);
  if (!total.why_no_time.empty() && !step.lasts) total.time.reset();
  if (total.time) total.why_no_time.clear();
  else if (total.why_no_time.empty()) total.why_no_time = fmt::format("how long {} lasts is not stated", step.name);
}

StepTotal total_of(const Book& book, const Step& step, std::size_t state) {
  StepTotal total;
  total.state = state;
  if (!book.point(state).settled) {
    total.why_no_time = fmt::format("{} does not settle", step.name);
    total.shaft = total.hydraulic = total.work = total.heat = unknown;
    return total;
  }
  const Moment& moment = book.moment(state);
  total.shaft = moment.shaft, total.hydraulic = moment.hydraulic, total.work = moment.work, total.heat = moment.heat_of_all();
  put_time(book, step, total);
  return total;
}

}  // namespace

CycleTotal totals_of(const Book& book) {
  CycleTotal cycle;
  double time = 0;
  for (const Step& step : book.circuit.work.steps) {
    const auto state = book.state_of(book.circuit.work.steps.id_of(step));
    if (!state) {
      cycle.why_none = fmt::format("{} has no state", step.name);
      continue;
    }
    const StepTotal total = total_of(book, step, *state);
    if (!total.time && cycle.why_none.empty()) cycle.why_none = fmt::format("the time of {} has no value: {}", step.name, total.why_no_time);
    const double lasts = total.time.value_or(0);
    time += lasts;
    cycle.shaft += total.shaft * lasts, cycle.hydraulic += total.hydraulic * lasts;
    cycle.work += total.work * lasts, cycle.heat += total.heat * lasts;
    cycle.peak_shaft = std::max(cycle.peak_shaft, total.shaft);
    cycle.steps.push_back(total);
  }
  if (cycle.steps.empty()) cycle.why_none = "there is no cycle";
  if (!cycle.why_none.empty() || !(time > 0)) return cycle;
  cycle.time = time;
  for (double* mean : {&cycle.shaft, &cycle.hydraulic, &cycle.work, &cycle.heat}) *mean /= time;
  return cycle;
}

}  // namespace ferrule::working
