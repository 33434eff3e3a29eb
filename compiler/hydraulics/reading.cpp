#include "compiler/hydraulics/reading.hpp"

#include <algorithm>

namespace ferrule::hydraulics {
namespace {

std::string_view word_of(Parameter id) {
  for (const ParameterInfo& info : parameters())
    if (info.id == id) return info.word;
  return {};
}

Dimension dimension_of(Parameter id) {
  for (const ParameterInfo& info : parameters())
    if (info.id == id) return info.dimension;
  return {};
}

}  // namespace

Reading::Reading(const Circuit& of, const State& in) : circuit(of), state(in), oils_(oils_of(of)) {
  if (state.settings.empty()) return;
  commands_.resize(circuit.parts.size());
  for (const Command& command : state.settings)
    if (command.part) commands_[command.part.index].push_back(&command);
}

// `at 38 L/min` and `at 40 %` fit the one parameter of that dimension a step may command; a named fact fits by its word.
const Command* Reading::command_for(const Element& element, Parameter id) const {
  if (commands_.empty()) return nullptr;
  for (const Command* command : commands_[element.part.index]) {
    if (!command->amount) continue;
    const bool by_word = !command->fact.empty() && command->fact == word_of(id);
    const bool by_dimension = command->fact.empty() && (id == Parameter::flow || id == Parameter::opening) &&
                              command->amount->dimension == dimension_of(id);
    if (by_word || by_dimension) return command;
  }
  return nullptr;
}

std::optional<double> Reading::value(const Element& element, Parameter id) {
  if (const Command* command = command_for(element, id)) return command->amount->si;
  const ParameterValue* found = element.find(id);
  if (!found) return std::nullopt;
  // Speed by the drive and full stroke are no assumptions: nothing else is meant where nothing else is said.
  if (found->origin == Origin::by_default && id != Parameter::speed && id != Parameter::opening)
    assume(element, std::string(word_of(id)) + " " + shown({found->si, dimension_of(id)}));
  return found->si;
}

double Reading::value_or(const Element& element, Parameter id, double otherwise, std::string_view shown_as) {
  if (const auto stated = value(element, id)) return *stated;
  assume(element, std::string(word_of(id)) + " " + std::string(shown_as));
  return otherwise;
}

bool Reading::commanded_shut(const Element& element) const {
  if (commands_.empty()) return false;
  const auto& list = commands_[element.part.index];
  return std::any_of(list.begin(), list.end(), [](const Command* c) { return c->kind == Command::Kind::closed; });
}

bool Reading::commanded_open(const Element& element) const {
  if (commands_.empty()) return false;
  const auto& list = commands_[element.part.index];
  return std::any_of(list.begin(), list.end(), [](const Command* c) { return c->kind == Command::Kind::open; });
}

std::optional<double> Reading::gas_pressure(const Element& element) {
  if (!commands_.empty())
    for (const Command* command : commands_[element.part.index])
      if (command->amount && command->amount->dimension == dimension::pressure) return command->amount->si;
  return value(element, Parameter::gas_pressure);
}

bool Reading::in_force(const Element& element) const {
  if (element.position < 0) return true;
  const std::size_t part = element.part.index;
  const int rest = circuit.parts[element.part].rest;
  const int now = part < state.position.size() && state.position[part] >= 0 ? state.position[part] : rest;
  return now == element.position;
}

bool Reading::running(PartId pump) const {
  return state.running.empty() || (pump.index < state.running.size() && state.running[pump.index]);
}

void Reading::assume(const Element& element, std::string_view text) {
  assumed_.push_back({circuit.elements.id_of(element).index, circuit.parts[element.part].tag + " " + std::string(text) + " (default)"});
}

void Reading::tell_assumed(const std::vector<bool>& plays_a_part, std::vector<std::string>& texts) const {
  for (const Assumption& assumption : assumed_)
    if (plays_a_part[assumption.element]) texts.push_back(assumption.text);
}

}  // namespace ferrule::hydraulics
