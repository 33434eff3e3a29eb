#include "compiler/figures/course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "compiler/hydraulics/laws_of.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::working {
namespace {

using hydraulics::bar;
using hydraulics::litre_a_minute;

constexpr double least_share_of_heat = 0.005;

// ---------------------------------------------------------------- actuators over the steps

const Motion* motion_of(const Step& step, PartId actuator) {
  const auto found = std::find_if(step.motions.begin(), step.motions.end(), [&](const Motion& m) { return m.actuator == actuator; });
  return found == step.motions.end() ? nullptr : &*found;
}

void put_places(const Circuit& circuit, PartId actuator, Lane& lane) {
  std::optional<double> at = 0;
  lane.at.push_back(at);
  for (const Step& step : circuit.work.steps) {
    const Motion* motion = motion_of(step, actuator);
    if (motion && motion->moves()) {
      lane.rotates = lane.rotates || motion->turns();
      if (at && motion->travel) *at += motion->is_outward() ? motion->travel->si : -motion->travel->si;
      else at.reset();
    }
    lane.at.push_back(at);
  }
  double low = 0, high = 0;
  for (const auto& place : lane.at)
    if (place) low = std::min(low, *place), high = std::max(high, *place);
  for (auto& place : lane.at)
    if (place) *place -= low;
  lane.stroke = high - low;
}

void put_turning(const Circuit& circuit, PartId actuator, Lane& lane) {
  for (const Step& step : circuit.work.steps) {
    const Motion* motion = motion_of(step, actuator);
    lane.at.push_back(motion && motion->moves() ? 1.0 : 0.0);
  }
}

std::vector<Lane> lanes_of(const Circuit& circuit) {
  std::vector<PartId> actuators;
  for (const Step& step : circuit.work.steps)
    for (const Motion& motion : step.motions)
      if (motion.actuator && motion.moves() && std::find(actuators.begin(), actuators.end(), motion.actuator) == actuators.end()) actuators.push_back(motion.actuator);
  std::sort(actuators.begin(), actuators.end());
  std::vector<Lane> lanes;
  for (PartId actuator : actuators) {
    Lane lane{circuit.parts[actuator].tag, false, false, 0, {}};
    lane.turns = std::any_of(circuit.work.steps.begin(), circuit.work.steps.end(), [&](const Step& step) {
      const Motion* motion = motion_of(step, actuator);
      return motion && motion->moves() && motion->turns() && !motion->travel;
    });
    if (lane.turns) put_turning(circuit, actuator, lane);
    else put_places(circuit, actuator, lane);
    lanes.push_back(std::move(lane));
  }
  return lanes;
}

// ---------------------------------------------------------------- supply

std::optional<double> number(double value) { return std::isnan(value) ? std::nullopt : std::optional(value); }

void add_supply(const Book& book, Course& course) {
  for (const Subject& pump : pumps_of(book)) {
    Trace pressure{pump.where, {}}, flow{pump.where, {}};
    for (const StepTotal& step : book.cycle().steps) {
      const bool settled = book.point(step.state).settled;
      pressure.by_step.push_back(settled ? number(outlet_pressure(book, pump, step.state)) : std::nullopt);
      flow.by_step.push_back(settled ? book.result(pump, "flow", step.state).result().si : std::nullopt);
    }
    course.pressures.push_back(std::move(pressure));
    course.flows.push_back(std::move(flow));
  }
}

// Where the law leaves the pump at this pressure, L/min.
double delivered(const hydraulics::Pump& law, double pressure) {
  const double by_stroke = std::clamp((law.ceiling - pressure) / law.droop, 0.0, law.full);
  return law.power > 0 && pressure > 1 ? std::min(by_stroke, law.power / pressure) : by_stroke;
}

// To where the stroke is nil, else a little past the highest pressure that a state asks for.
void put_curve(const hydraulics::Pump& law, PumpChart& chart) {
  double highest = 10;
  for (const PumpChart::Stand& stand : chart.stands) highest = std::max(highest, stand.pressure / bar);
  const bool ends = law.ceiling < hydraulics::beyond_all_ratings;
  const double end = ends ? law.ceiling : highest * 1.1;
  std::vector<double> places;
  constexpr int pieces = 120;
  for (int i = 0; i <= pieces; ++i) places.push_back(end * i / pieces);
  if (ends) places.push_back(std::max(0.0, law.ceiling - law.droop * law.full));  // the knee
  if (law.power > 0) places.push_back(std::min(end, law.power / law.full));
  std::sort(places.begin(), places.end());
  for (const double p : places) chart.curve.emplace_back(p * bar, delivered(law, p) * litre_a_minute);
}

}  // namespace

std::vector<Subject> pumps_of(const Book& book) {
  std::vector<Subject> pumps;
  for (Subject& subject : book.subjects())
    if (subject.kind == Kind::pump) pumps.push_back(std::move(subject));
  return pumps;
}

double outlet_pressure(const Book& book, const Subject& pump, std::size_t state) {
  const NodeId outlet = outlet_of(book.moment(state), pump.element);
  return outlet ? book.point(state).pressure[outlet.index] : std::numeric_limits<double>::quiet_NaN();
}

Course course_of(const Book& book) {
  Course course;
  const CycleTotal& cycle = book.cycle();
  if (book.circuit.work.steps.size() == 0 || cycle.steps.size() != book.circuit.work.steps.size()) return course;
  for (const Step& step : book.circuit.work.steps) course.steps.push_back(step.name);
  course.lanes = lanes_of(book.circuit);
  course.why_no_time = cycle.why_none;
  if (cycle.time)
    for (const StepTotal& step : cycle.steps) course.lasts.push_back(step.time.value_or(0));
  add_supply(book, course);
  course.powers = {{"shafts", {}}, {"work", {}}, {"heat", {}}};
  for (const StepTotal& step : cycle.steps) {
    const double values[] = {step.shaft, step.work, step.heat};
    for (std::size_t i = 0; i < std::size(values); ++i) course.powers[i].by_step.push_back(number(values[i]));
  }
  return course;
}

std::vector<PumpChart> pump_charts(const Book& book) {
  std::vector<PumpChart> charts;
  for (const Subject& pump : pumps_of(book)) {
    PumpChart chart{pump.where, {}, {}};
    std::optional<std::size_t> running;
    for (std::size_t state : book.told()) {
      hydraulics::Reading reading(book.circuit, book.states[state]);
      if (!book.point(state).settled || !reading.running(pump.part)) continue;
      const auto flow = book.result(pump, "flow", state).result().si;
      const double pressure = outlet_pressure(book, pump, state);
      if (!flow || std::isnan(pressure)) continue;
      running = running.value_or(state);
      chart.stands.push_back({book.states[state].name, pressure, *flow});
    }
    if (!running) continue;
    hydraulics::Reading reading(book.circuit, book.states[*running]);
    put_curve(hydraulics::pump_of(reading, book.circuit.elements[pump.element]), chart);
    charts.push_back(std::move(chart));
  }
  return charts;
}

HeatBars heat_bars(const Book& book) {
  const CycleTotal& cycle = book.cycle();
  std::vector<std::pair<std::size_t, double>> shares;  // state, weight
  HeatBars out;
  if (cycle.time) {
    out.basis = "mean over the cycle";
    for (const StepTotal& step : cycle.steps) shares.emplace_back(step.state, step.time.value_or(0) / *cycle.time);
  } else {
    double most = -1;
    for (std::size_t state : book.told())
      if (book.point(state).settled && book.moment(state).heat_of_all() > most) most = book.moment(state).heat_of_all(), shares = {{state, 1.0}};
    if (!shares.empty()) out.basis = fmt::format("in {}", book.states[shares.front().first].name);
  }
  std::vector<double> by_part(book.circuit.parts.size());
  for (const auto& [state, weight] : shares)
    for (std::uint32_t e = 0; e < book.circuit.elements.size(); ++e)
      if (const double heat = book.moment(state).heat[e]; !std::isnan(heat)) by_part[book.circuit.elements[{e}].part.index] += heat * weight;
  double all = 0, others = 0;
  for (const double heat : by_part) all += heat;
  for (std::uint32_t part = 0; part < by_part.size(); ++part) {
    if (by_part[part] > least_share_of_heat * all) out.bars.emplace_back(place_of(book.circuit, {part}), by_part[part]);
    else others += by_part[part];
  }
  std::stable_sort(out.bars.begin(), out.bars.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  if (others > least_share_of_heat * all) out.bars.emplace_back("others", others);
  return out;
}

}  // namespace ferrule::working
