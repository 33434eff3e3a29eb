// Control rules applied to a moment: `0Y1 on whenever 1Y1 or 1Y2`, `0Y1 on from PS1 closes until PS1 opens`.
#pragma once

#include "compiler/states/state.hpp"

namespace ferrule {

// Signals that outlast a step: `from ... until` rules that are on, and the contacts of switches.
enum class Contact : std::int8_t { unknown, closed, open };
struct Signals {
  std::vector<bool> latched;      // by control rule
  std::vector<Contact> contacts;  // by part: what the last moment of it left, which steps and rules name
};
// Before the first step: no rule is on; a contact stands so that the first moment which the steps name of it can come.
Signals signals_at_start(const Circuit& circuit);

// What is known of the moment when a condition is asked.
struct Moment {
  const Circuit& circuit;
  const State& state;          // positions, drives and solenoids so far
  const Signals& signals;
};

bool holds(const Moment& moment, const ControlRule::Term& term);
bool is_condition_met(const Moment& moment, const ControlRule& rule);

// Commands that the rules add in this moment, in the order of the text.
std::vector<Command> commanded_by_rules(const Moment& moment);

// The signals after a step that ends with `ending` ("PS1 opens").
void pass_moment(const Circuit& circuit, const std::string& ending, Signals& signals);

// The control rules forbid that these are energised together, or that one is energised alone.
bool is_forbidden(const Circuit& circuit, const State& state);

// A rule that can be decided from the circuit: not one that only waits for an operator's words.
bool decides(const Circuit& circuit, const ControlRule& rule);

// A drive that a step or a rule switches by something other than an operator's words.
bool is_switched_by_cycle(const Circuit& circuit, PartId drive);

}  // namespace ferrule
