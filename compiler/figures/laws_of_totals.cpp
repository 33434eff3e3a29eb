// Line functions, steps, the cycle, the oil.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "compiler/figures/laws.hpp"

namespace ferrule::working {
namespace {

namespace d = dimension;

// ---------------------------------------------------------------- line functions: the greatest of their lines

void read_greatest(const Asked& asked, Value& value, std::string_view what) {
  const Circuit& circuit = asked.book.circuit;
  value.why_none = fmt::format("no {} line has a value", asked.subject.where);
  for (const Line& line : circuit.lines) {
    if (line.function != asked.subject.function) continue;
    const auto subject = asked.book.subject(circuit.parts[line.part].tag);
    if (!subject) continue;
    const Worked one = asked.book.result(*subject, what, asked.state);
    if (!one.result().si || (value.si && *one.result().si <= *value.si)) continue;
    value.si = one.result().si;
    value.origin = "greatest of its lines: " + place_of(circuit, line.part);
    value.why_none.clear();
    asked.worked.values.assign(one.values.begin(), one.values.end() - 1);
    asked.worked.ways = one.ways;
  }
}
void read_greatest_velocity(const Asked& asked, Value& value) { read_greatest(asked, value, "velocity"); }
void read_greatest_flow(const Asked& asked, Value& value) { read_greatest(asked, value, "flow"); }
void read_greatest_reynolds(const Asked& asked, Value& value) { read_greatest(asked, value, "reynolds"); }
void read_greatest_drop(const Asked& asked, Value& value) { read_greatest(asked, value, "drop"); }
void read_greatest_pressure(const Asked& asked, Value& value) {
  value.why_none = fmt::format("no {} line has a value", asked.subject.where);
  const Circuit& circuit = asked.book.circuit;
  for (const Run& run : circuit.runs)
    for (const RunStep& step : run.steps) {
      if (run.function != asked.subject.function || !step.port) continue;
      const double p = asked.moment().pressure(circuit.ports[step.port].node);
      if (!std::isfinite(p) || (value.si && p <= *value.si)) continue;
      value.si = p, value.why_none.clear();
      value.origin = "greatest at its ends: " + circuit.name_of(step.port);
    }
}

// ---------------------------------------------------------------- steps

const StepTotal* total_of(const Asked& asked) {
  for (const StepTotal& total : asked.book.cycle().steps)
    if (asked.book.states[total.state].step == asked.subject.step) return &total;
  return nullptr;
}

void read_step(const Asked& asked, Value& value, double StepTotal::*what, std::string_view origin) {
  const StepTotal* total = total_of(asked);
  if (!total) return void(value.why_none = "the step has no state that could be solved");
  read_solved(value, total->*what, "a pressure has no value in this step");
  value.origin = origin;
}
void read_step_shaft(const Asked& asked, Value& value) { read_step(asked, value, &StepTotal::shaft, "sum over the pumps"); }
void read_step_hydraulic(const Asked& asked, Value& value) { read_step(asked, value, &StepTotal::hydraulic, "sum over the pumps"); }
void read_step_work(const Asked& asked, Value& value) { read_step(asked, value, &StepTotal::work, "sum over the actuators; lowered loads count against"); }
void read_step_heat(const Asked& asked, Value& value) { read_step(asked, value, &StepTotal::heat, "sum over all parts"); }

void read_step_time(const Asked& asked, Value& value) {
  const StepTotal* total = total_of(asked);
  if (!total || !total->time) return void(value.why_none = total ? total->why_no_time : "the step has no state that could be solved");
  value.si = *total->time;
  value.origin = "the longest of its motions, or as stated:";
  for (const Subject& one : asked.book.subjects()) {
    if ((one.kind != Kind::cylinder && one.kind != Kind::motor) || !stated_motion(asked.book.states[total->state], *one.body)) continue;
    const Worked time = asked.book.result(one, "time", total->state);
    if (!time.result().si) continue;
    value.origin += fmt::format(" {} {}", one.where, shown(time.result()));
    if (std::fabs(*time.result().si - *value.si) < 1e-9) asked.worked.values.assign(time.values.begin(), time.values.end() - 1), asked.worked.ways = time.ways;
  }
}

// ---------------------------------------------------------------- the cycle

std::string list_of(const Asked& asked, double StepTotal::*what) {
  std::string text;
  for (const StepTotal& step : asked.book.cycle().steps)
    text += fmt::format("{} {} {} for {}", text.empty() ? "" : ",", asked.book.states[step.state].name, shown(Quantity{step.*what, d::power}),
                        step.time ? shown(Quantity{*step.time, d::time}) : "?");
  return text;
}

void read_cycle_mean(const Asked& asked, Value& value, double CycleTotal::*mean, double StepTotal::*step) {
  const CycleTotal& cycle = asked.book.cycle();
  if (!cycle.time) return void(value.why_none = cycle.why_none);
  read_solved(value, cycle.*mean, "a step has no value");
  value.origin = "mean over the time of the steps:" + list_of(asked, step);
}
void read_cycle_shaft(const Asked& asked, Value& value) { read_cycle_mean(asked, value, &CycleTotal::shaft, &StepTotal::shaft); }
void read_cycle_work(const Asked& asked, Value& value) { read_cycle_mean(asked, value, &CycleTotal::work, &StepTotal::work); }
void read_cycle_heat(const Asked& asked, Value& value) { read_cycle_mean(asked, value, &CycleTotal::heat, &StepTotal::heat); }
void read_cycle_peak(const Asked& asked, Value& value) {
  const CycleTotal& cycle = asked.book.cycle();
  if (cycle.steps.empty()) return void(value.why_none = "there is no cycle");
  read_solved(value, cycle.peak_shaft, "a step has no value");
  value.origin = "greatest of the steps:" + list_of(asked, &StepTotal::shaft);
}
void read_cycle_time(const Asked& asked, Value& value) {
  const CycleTotal& cycle = asked.book.cycle();
  if (!cycle.time) return void(value.why_none = cycle.why_none);
  value.si = *cycle.time;
  value.origin = "sum of the steps:";
  for (const StepTotal& step : cycle.steps) value.origin += fmt::format(" {} {}", asked.book.states[step.state].name, shown(Quantity{*step.time, d::time}));
}

// ---------------------------------------------------------------- the oil

void read_climate(const Asked& asked, Value& value, double si, std::string_view origin) {
  const Climate& climate = asked.book.climate();
  if (!climate.kelvin) return void(value.why_none = climate.why_none);
  value.si = si;
  value.origin = origin;
}
void read_ambient(const Asked& asked, Value& value) { read_climate(asked, value, asked.book.climate().ambient, "given, 20 degC where nothing is said"); }
void read_wall(const Asked& asked, Value& value) { read_climate(asked, value, asked.book.climate().wall, "wetted area times heat transfer of the reservoirs"); }
void read_cooler(const Asked& asked, Value& value) { read_climate(asked, value, asked.book.climate().cooler, "duty per kelvin of the coolers"); }
void read_coolant(const Asked& asked, Value& value) { read_climate(asked, value, asked.book.climate().coolant, "given, ambient where nothing is said"); }
void read_duty(const Asked& asked, Value& value) { read_climate(asked, value, asked.book.climate().duty, "fixed duty of the coolers"); }
void read_mean_heat(const Asked& asked, Value& value) {
  const Climate& climate = asked.book.climate();
  read_climate(asked, value, climate.heat,
               climate.fixed ? "mean over the cycle, the oil as the text states it" : "mean over the cycle, viscosity following the temperature");
}
void read_viscosity(const Asked& asked, Value& value) {
  const Climate& climate = asked.book.climate();
  value.si = climate.kinematic_viscosity;
  value.origin = climate.fixed ? "as the text states it, or by its grade at the temperature stated" : "grade and index at the balance temperature";
}

constexpr Law table[] = {
    {Kind::function, "v", "greatest mean velocity", d::speed, "", "", read_greatest_velocity},
    {Kind::function, "q", "greatest flow", d::flow, "", "", read_greatest_flow},
    {Kind::function, "Re", "greatest Reynolds number", d::none, "", "", read_greatest_reynolds},
    {Kind::function, "dp", "greatest pressure drop", d::pressure, "", "", read_greatest_drop},
    {Kind::function, "p", "greatest pressure", d::pressure, "", "", read_greatest_pressure},

    {Kind::step, "t", "time", d::time, "", "", read_step_time},
    {Kind::step, "P", "power at the shafts", d::power, "", "", read_step_shaft},
    {Kind::step, "P_hyd", "power the pumps give to the oil", d::power, "", "", read_step_hydraulic},
    {Kind::step, "P_L", "power given to the loads", d::power, "", "", read_step_work},
    {Kind::step, "P_h", "heat", d::power, "", "conservation: power in = work + heat", read_step_heat},
    {Kind::step, "eta", "efficiency", d::none, "P_L / P", "work over shaft power"},

    {Kind::cycle, "t", "time of the cycle", d::time, "", "", read_cycle_time},
    {Kind::cycle, "P", "mean power at the shafts", d::power, "", "", read_cycle_shaft},
    {Kind::cycle, "P_max", "greatest power at the shafts", d::power, "", "", read_cycle_peak},
    {Kind::cycle, "P_L", "mean power given to the loads", d::power, "", "", read_cycle_work},
    {Kind::cycle, "P_h", "mean heat", d::power, "", "conservation: power in = work + heat", read_cycle_heat},
    {Kind::cycle, "eta", "efficiency", d::none, "P_L / P", "work over shaft power"},

    {Kind::oil, "P_h", "mean heat", d::power, "", "conservation: power in = work + heat", read_mean_heat},
    {Kind::oil, "P_c", "heat that coolers take", d::power, "", "", read_duty},
    {Kind::oil, "kA", "heat the walls give off for each kelvin", d::duty_per_kelvin, "", "", read_wall},
    {Kind::oil, "k_c", "heat the coolers take for each kelvin", d::duty_per_kelvin, "", "", read_cooler},
    {Kind::oil, "T_a", "ambient temperature", d::temperature, "", "", read_ambient},
    {Kind::oil, "T_c", "coolant temperature", d::temperature, "", "", read_coolant},
    {Kind::oil, "T", "temperature at which heat in and out balance", d::temperature, "(P_h - P_c + kA x T_a + k_c x T_c) / (kA + k_c)",
     "heat in = heat given off by walls and coolers"},
    {Kind::oil, "nu", "kinematic viscosity", d::kinematic_viscosity, "", "ISO 3448, ASTM D341", read_viscosity},
};

constexpr Answer all_answers[] = {
    {Kind::line, "flow", "q"},          {Kind::line, "velocity", "v"},     {Kind::line, "reynolds", "Re"},  {Kind::line, "drop", "dp"},
    {Kind::line, "heat", "P_h"},
    {Kind::pump, "flow", "q"},          {Kind::pump, "drop", "dp"},        {Kind::pump, "speed", "n"},      {Kind::pump, "torque", "T"},
    {Kind::pump, "power", "P"},         {Kind::pump, "efficiency", "eta"}, {Kind::pump, "heat", "P_h"},
    {Kind::drive, "power", "P"},
    {Kind::cylinder, "speed", "v"},     {Kind::cylinder, "force", "F"},    {Kind::cylinder, "load", "F_L"}, {Kind::cylinder, "margin", "M"},
    {Kind::cylinder, "travel", "s"},    {Kind::cylinder, "time", "t"},     {Kind::cylinder, "flow", "q_A"}, {Kind::cylinder, "drop", "dp"},
    {Kind::cylinder, "volume", "V"},    {Kind::cylinder, "power", "P"},    {Kind::cylinder, "heat", "P_h"},
    {Kind::motor, "speed", "n"},        {Kind::motor, "torque", "T"},      {Kind::motor, "load", "T_L"},    {Kind::motor, "margin", "M"},
    {Kind::motor, "travel", "s"},       {Kind::motor, "time", "t"},        {Kind::motor, "flow", "q_A"},    {Kind::motor, "drop", "dp"},
    {Kind::motor, "volume", "V"},       {Kind::motor, "power", "P"},       {Kind::motor, "heat", "P_h"},
    {Kind::valve, "flow", "q"},         {Kind::valve, "drop", "dp"},       {Kind::valve, "heat", "P_h"},
    {Kind::port, "pressure", "p"},      {Kind::port, "flow", "q"},
    {Kind::store, "pressure", "p"},     {Kind::store, "volume", "V_s"},    {Kind::store, "fast-volume", "V_q"},
    {Kind::store, "hold-time", "t"},
    {Kind::function, "velocity", "v"},  {Kind::function, "flow", "q"},     {Kind::function, "reynolds", "Re"}, {Kind::function, "drop", "dp"},
    {Kind::function, "pressure", "p"},
    {Kind::step, "time", "t"},          {Kind::step, "power", "P"},        {Kind::step, "heat", "P_h"},     {Kind::step, "efficiency", "eta"},
    {Kind::cycle, "time", "t"},         {Kind::cycle, "power", "P"},       {Kind::cycle, "peak-power", "P_max"}, {Kind::cycle, "heat", "P_h"},
    {Kind::cycle, "efficiency", "eta"},
    {Kind::oil, "temperature", "T"},    {Kind::oil, "viscosity", "nu"},
};

}  // namespace

std::span<const Law> laws_of_totals() { return table; }
std::span<const Answer> answers() { return all_answers; }

}  // namespace ferrule::working
