#include "checks/machinery/evidence.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace ferrule {

Place at_part(const Circuit& circuit, PartId part, std::string phrase) {
  const Part& p = circuit.parts[part];
  return {p.span.empty() ? p.statement : p.span, std::move(phrase)};
}

Place at_fact(const Circuit& circuit, PartId part, std::string_view fact, std::string phrase) {
  const FactValue* value = circuit.parts[part].fact(fact);
  if (value && value->origin == Origin::given && !value->span.empty()) return {value->span, std::move(phrase)};
  return at_part(circuit, part, std::move(phrase));
}

Place at_port(const Circuit& circuit, PortId port, std::string phrase) {
  const Port& p = circuit.ports[port];
  return p.span.empty() ? at_part(circuit, p.part, std::move(phrase)) : Place{p.span, std::move(phrase)};
}

const Role* role_of(const Circuit& circuit, PartId part, std::string_view role) {
  const Definition* definition = circuit.parts[part].definition;
  return definition ? definition->role(role) : nullptr;
}

bool has_role(const Circuit& circuit, PartId part, std::string_view role) { return role_of(circuit, part, role) != nullptr; }

std::optional<double> full_flow_pressure(const Circuit& circuit, const Element& relief) {
  const Part& part = circuit.parts[relief.part];
  for (const std::string_view fact : {"full-flow", "setting"})
    if (const auto stated = part.si(fact)) return stated;
  const auto full_flow = relief.value(Parameter::full_flow);
  return full_flow ? full_flow : relief.value(Parameter::setting);
}

std::string in_words(const Circuit& circuit, const std::vector<std::pair<PartId, std::int16_t>>& positions) {
  std::string out;
  for (const auto& [part, position] : positions)
    out += fmt::format("{}{} in {}", out.empty() ? "" : " and ", circuit.parts[part].tag, circuit.parts[part].positions[position].name);
  return out;
}

const State* state_with(const Solved& solved, const std::vector<std::pair<PartId, std::int16_t>>& positions) {
  for (const State& state : solved.states.states) {
    const auto stands = [&](const auto& wanted) { return state.position[wanted.first.index] == wanted.second; };
    if (std::all_of(positions.begin(), positions.end(), stands)) return &state;
  }
  return nullptr;
}

void set_state(Message& message, const State& state) {
  message.state_class = word_of(state.state_class);
  message.states = {state.name};
}

namespace {

// A line has no name of its own unless the text gives it one; its two ports name it whatever is written around it.
std::string ports_of_line(const Circuit& circuit, PartId part) {
  for (const Run& run : circuit.runs)
    for (std::size_t at = 1; at + 1 < run.steps.size(); ++at) {
      if (!run.steps[at].line || circuit.lines[run.steps[at].line].part != part) continue;
      std::vector<std::string> ends;
      for (const RunStep& end : {run.steps[at - 1], run.steps[at + 1]})
        if (end.port) ends.push_back(circuit.name_of(end.port));
      std::sort(ends.begin(), ends.end());
      return joined(ends, " -- ");
    }
  return {};
}

}  // namespace

Message message_of(const Rule& rule, const Circuit& circuit, PartId subject, std::string cause) {
  Message message;
  message.code = rule.code;
  message.rule = rule.name;
  message.severity = rule.severity;
  message.subject = circuit.parts[subject].tag;
  message.known_by = ports_of_line(circuit, subject);
  message.cause = std::move(cause);
  return message;
}

Verdict verdict_of(const Rule& rule, const Circuit& circuit, PartId subject, Outcome outcome, std::string because) {
  return {std::string(rule.code), std::string(rule.name), circuit.parts[subject].tag, outcome, std::move(because)};
}

std::vector<std::string> defaults_of(const Circuit& circuit, PartId part, const std::vector<std::string_view>& facts) {
  std::vector<std::string> out;
  for (const std::string_view name : facts) {
    const FactValue* fact = circuit.parts[part].fact(name);
    if (fact && fact->origin == Origin::by_default && fact->kind == FactKind::quantity && !fact->numbers.empty())
      out.push_back(fmt::format("{} {} {} (default)", circuit.parts[part].tag, name, shown(fact->numbers.front())));
  }
  return out;
}

std::string joined(const std::vector<std::string>& words, std::string_view between) { return fmt::format("{}", fmt::join(words, between)); }

}  // namespace ferrule
