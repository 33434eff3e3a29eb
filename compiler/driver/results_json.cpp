// Results for scripts. The schema is results.schema.json beside this file; adding fields is compatible, anything else bumps `schema`.
#include <cmath>

#include <nlohmann/json.hpp>

#include "compiler/driver/computed.hpp"
#include "compiler/figures/requirement.hpp"
#include "compiler/figures/units_of_results.hpp"

namespace ferrule {
namespace {

using Json = nlohmann::ordered_json;
using working::Book;
using working::Value;
using working::Worked;

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

// Value and unit of the trade; null with its reason.
void put_value(Json& to, const Value& value) {
  if (value.si) {
    const auto [number_in_unit, unit] = working::in_usual_unit(*value.si, value.dimension);
    to["value"] = number_in_unit, to["unit"] = unit;
  } else {
    to["value"] = nullptr, to["why_none"] = value.why_none;
  }
}

Json result_json(const Worked& worked) {
  Json out{{"address", worked.address}, {"what", worked.what}};
  const Value& value = worked.result();
  put_value(out, value);
  if (!value.formula.empty()) out["formula"] = value.symbol + " = " + value.formula;
  if (!value.origin.empty()) out["origin"] = value.origin;
  if (!value.source.empty()) out["source"] = value.source;
  return out;
}

Json pressures_json(const Book& book, std::size_t state) {
  Json out = Json::array();
  const OperatingPoint& point = book.point(state);
  for (const Node& node : book.circuit.nodes) {
    if (!working::is_joined(book.circuit, node)) continue;
    const std::uint32_t index = book.circuit.nodes.id_of(node).index;
    Json ports = Json::array();
    for (PortId port : node.ports) ports.push_back(book.circuit.name_of(port));
    const double p = point.settled ? point.pressure[index] : std::nan("");
    Json one{{"ports", ports}, {"bar", number(p / 1e5)}, {"trapped", bool(point.trapped[index])}, {"void", bool(point.voided[index])}};
    if (!std::isfinite(p)) one["why_none"] = !point.settled ? "the state does not settle" : std::isinf(p) ? "nothing limits it" : "shut in without a load";
    out.push_back(std::move(one));
  }
  return out;
}

Json results_json(const Book& book, std::size_t state) {
  Json out = Json::array();
  for (const working::Subject& subject : book.subjects())
    for (std::string_view what : book.words_for(subject.kind)) out.push_back(result_json(book.result(subject, what, state)));
  return out;
}

Json power_json(const Book& book, std::size_t state) {
  const working::Moment& m = book.moment(state);
  return {{"shaft_W", number(m.shaft)}, {"hydraulic_W", number(m.hydraulic)}, {"work_W", number(m.work)}, {"heat_W", number(m.heat_of_all())},
          {"from_stores_W", number(m.stored)}, {"lifted_oil_W", number(m.lifted)}};
}

Json state_json(const Book& book, std::size_t index) {
  const State& state = book.states[index];
  const OperatingPoint& point = book.point(index);
  Json out{{"name", state.name},     {"class", word_of(state.state_class)}, {"step", state.step ? Json(book.circuit.work.steps[state.step].name) : Json(nullptr)},
           {"settled", point.settled}, {"residual", number(point.residual)},  {"alternating", point.alternating},
           {"notes", point.notes},   {"assumed", point.defaults}};
  out["pressures"] = pressures_json(book, index);
  if (point.settled) out["power"] = power_json(book, index), out["results"] = results_json(book, index);
  return out;
}

Json cycle_json(const Book& book) {
  const working::CycleTotal& cycle = book.cycle();
  Json steps = Json::array(), results = Json::array();
  for (const working::StepTotal& step : cycle.steps) {
    Json one{{"step", book.circuit.work.steps[book.states[step.state].step].name}, {"time_s", step.time ? Json(*step.time) : Json(nullptr)},
             {"shaft_W", number(step.shaft)}, {"work_W", number(step.work)}, {"heat_W", number(step.heat)}};
    if (!step.time) one["why_none"] = step.why_no_time;
    steps.push_back(std::move(one));
  }
  for (const char* where : {"cycle", "oil"})
    if (const auto subject = book.subject(where))
      for (std::string_view what : book.words_for(subject->kind)) results.push_back(result_json(book.result(*subject, what, 0)));
  return {{"steps", steps}, {"results", results}};
}

Json requirements_json(const Book& book, std::optional<std::size_t> only) {
  Json out = Json::array();
  for (const working::Judged& one : working::judged_requirements(book, only)) {
    const char* words[] = {"met", "failed", "no value"};
    Json json{{"address", one.address}, {"wanted", one.wanted}, {"outcome", words[static_cast<int>(one.outcome)]}, {"state", one.state}};
    put_value(json, one.value);
    out.push_back(std::move(json));
  }
  return out;
}

}  // namespace

std::string results_as_json(const std::vector<SolvedFile>& files, std::string_view wanted) {
  Json all = Json::array();
  for (const SolvedFile& file : files) {
    Json states = Json::array();
    const auto only = wanted.empty() ? std::nullopt : file.book->state_named(wanted);
    for (std::size_t index : only ? std::vector{*only} : file.book->told()) states.push_back(state_json(*file.book, index));
    Json one{{"file", file.file}, {"circuit", file.circuit}, {"states", states}};
    if (!only) one["cycle"] = cycle_json(*file.book);
    one["requirements"] = requirements_json(*file.book, only), one["cautions"] = file.cautions;
    all.push_back(std::move(one));
  }
  const Json report{{"ferrule", version()}, {"schema", 1}, {"files", all}};
  return report.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace ferrule
