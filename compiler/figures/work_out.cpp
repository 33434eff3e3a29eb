// From rows of the table to lines on the board.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "compiler/figures/expression.hpp"
#include "compiler/figures/laws.hpp"

namespace ferrule::working {
namespace {

// Formulas speak of turns, as nameplates do: cm3 in a turn, turns in a second.
double per_turn(Dimension dimension) { return std::pow(2 * std::numbers::pi, -dimension.angle); }

const Law* law_of(const Asked& asked, std::string_view symbol) {
  for (const auto table : {laws_of_lines(), laws_of_pumps(), laws_of_actuators(), laws_of_valves(), laws_of_totals()})
    for (const Law& law : table)
      if (law.kind == asked.subject.kind && law.symbol == symbol && (!law.holds || law.holds(asked))) return &law;
  return nullptr;
}

const Value* known(const Worked& worked, std::string_view symbol) {
  for (const Value& value : worked.values)
    if (value.symbol == symbol) return &value;
  return nullptr;
}

void compute(const Asked& asked, Value& value) {
  for (const std::string& name : names_in(value.formula)) {
    const Value& part = work_out(asked, name);
    if (!part.si) {
      value.why_none = part.why_none;
      return;
    }
  }
  value.si = by_formula(asked.worked, value);
  if (!value.si) value.why_none = "it would be divided by nil";
}

}  // namespace

const Value& work_out(const Asked& asked, std::string_view symbol) {
  if (const Value* value = known(asked.worked, symbol)) return *value;
  Value value;
  value.symbol = symbol;
  const Law* law = law_of(asked, symbol);
  if (!law) {
    value.why_none = fmt::format("{} has no {}", asked.subject.where, symbol);
  } else {
    value.meaning = law->meaning, value.dimension = law->dimension, value.source = law->source, value.formula = law->formula;
    if (law->read) law->read(asked, value);
    else compute(asked, value);
  }
  asked.worked.values.push_back(std::move(value));
  return asked.worked.values.back();
}

void read_fact(const Asked& asked, Value& value, Parameter id, std::optional<double> otherwise, std::string_view source) {
  const Moment& moment = asked.moment();
  const auto si = moment.reading.value(asked.element(), id);
  const ParameterValue* stated = asked.element().find(id);
  if (si) {
    value.si = *si;
    const bool commanded = !stated || stated->si != *si;
    value.origin = commanded ? "commanded by the step" : stated->origin == Origin::by_default ? "default of the definition" : "given";
  } else if (otherwise) {
    value.si = *otherwise;
    value.origin = "default (" + std::string(source) + ")";
  } else {
    value.why_none = fmt::format("{} of {} is not stated", value.meaning, asked.subject.where);
  }
}

void read_solved(Value& value, double si, std::string_view why_nan) {
  value.origin = "balance of the circuit";
  if (std::isnan(si)) value.why_none = why_nan;
  else if (std::isinf(si)) value.why_none = "nothing limits the pressure: it has no upper bound";
  else value.si = si;
}

std::optional<double> by_formula(const Worked& worked, const Value& value) {
  const double in_turns = value_of(value.formula, [&](std::string_view name) {
    const Value* part = known(worked, name);
    return part && part->si ? *part->si * per_turn(part->dimension) : std::nan("");
  });
  const double si = in_turns / per_turn(value.dimension);
  return std::isfinite(si) ? std::optional(si) : std::nullopt;
}

std::string shown(const Value& value) {
  return value.si ? ferrule::shown(Quantity{*value.si, value.dimension}) : "none";
}

}  // namespace ferrule::working
