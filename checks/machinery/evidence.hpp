// What rules say their findings with: places, names, states, figures.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "checks/machinery/rule.hpp"

namespace ferrule {

// The part's tag in the text; of a line without a tag its words in the run.
Place at_part(const Circuit& circuit, PartId part, std::string phrase);
// Where a fact was stated, else the part itself.
Place at_fact(const Circuit& circuit, PartId part, std::string_view fact, std::string phrase);
// Where a port was first joined, else its part.
Place at_port(const Circuit& circuit, PortId port, std::string phrase);

bool has_role(const Circuit& circuit, PartId part, std::string_view role);
const Role* role_of(const Circuit& circuit, PartId part, std::string_view role);

// What a relief lets stand at full flow, as its part states it: an element may be one stage of several. None when nothing is stated.
std::optional<double> full_flow_pressure(const Circuit& circuit, const Element& relief);

// "1V1 in 0 and 2V1 in a"
std::string in_words(const Circuit& circuit, const std::vector<std::pair<PartId, std::int16_t>>& positions);
// The first state in which the valves stand so, or none.
const State* state_with(const Solved& solved, const std::vector<std::pair<PartId, std::int16_t>>& positions);
void set_state(Message& message, const State& state);

Message message_of(const Rule& rule, const Circuit& circuit, PartId subject, std::string cause);
Verdict verdict_of(const Rule& rule, const Circuit& circuit, PartId subject, Outcome outcome, std::string because);

// Names of the parts whose facts by default carry a value: "0P1 volumetric (default)". Facts that no rule of flow leans on are left out.
std::vector<std::string> defaults_of(const Circuit& circuit, PartId part, const std::vector<std::string_view>& facts);

std::string joined(const std::vector<std::string>& words, std::string_view between);

}  // namespace ferrule
