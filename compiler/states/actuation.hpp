// From what is energised, operated or piloted to valve positions.
#pragma once

#include "compiler/states/control.hpp"
#include "compiler/states/habits.hpp"

namespace ferrule {

// What has happened up to a moment: where valves stand that stay where they were put, and signals that last.
struct History {
  std::vector<std::int16_t> position;  // by part, of the moment before; -1 without positions
  Signals signals;
};
History at_start(const Circuit& circuit);

// Where a valve goes when nothing acts on it: springs bring it to rest, a detent keeps it.
std::int16_t left_alone(const Part& part, std::int16_t before);
// It stays where a pulse or a hand put it.
bool stays_put(const Part& part);

// When a state is asked for.
struct Occasion {
  bool rest = false;  // drives that the cycle or a rule switches stand still
  StepId step;        // the step of the cycle: its motions are known to the rules
};

// The state under these commands and the control rules: positions, drives, energised solenoids; pilots settled.
State actuated(const Circuit& circuit, const Habits& habits, const std::vector<Command>& commands, const History& history,
               Occasion occasion);

// Some actuator moves or presses.
bool is_at_work(const State& state);

// Everything off: drives, solenoids, hands; valves stay where a detent keeps them.
State stopped(const Circuit& circuit, const Habits& habits, const History& history);

}  // namespace ferrule
