// Control rules applied to a moment: `0Y1 on whenever 1Y1 or 1Y2`, `0Y1 on from PS1 closes until PS1 opens`.
#pragma once

#include "compiler/states/state.hpp"

namespace ferrule {

// What is known of the moment when a condition is asked.
struct Moment {
  const Circuit& circuit;
  const State& state;          // positions, drives and solenoids so far
  const std::vector<bool>& latched;
};

bool holds(const Moment& moment, const ControlRule::Term& term);
bool is_condition_met(const Moment& moment, const ControlRule& rule);

// Commands that the rules add in this moment, in the order of the text.
std::vector<Command> commanded_by_rules(const Moment& moment);

// The latches after a step that ends with `ending` ("PS1 opens").
void latch(const Circuit& circuit, const std::string& ending, std::vector<bool>& latched);

// The control rules forbid that these are energised together, or that one is energised alone.
bool is_forbidden(const Circuit& circuit, const State& state);

// A rule that can be decided from the circuit: not one that only waits for an operator's words.
bool decides(const Circuit& circuit, const ControlRule& rule);

// A drive that a step or a rule switches by something other than an operator's words.
bool is_switched_by_cycle(const Circuit& circuit, PartId drive);

}  // namespace ferrule
