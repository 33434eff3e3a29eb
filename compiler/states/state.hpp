// The states a circuit is judged in: a position for every valve, drives running or not, what each actuator does.
#pragma once

#include <string>
#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule {

enum class StateClass : std::uint8_t { rest, idle, stop, work, late };
std::string_view word_of(StateClass state_class);

struct State {
  std::string name;                      // "rest", "squeeze", "1V1=a", "stop after press"
  StateClass state_class = StateClass::rest;
  StepId step;                           // the cycle step it stands for
  std::vector<std::int16_t> position;    // by part; -1 for parts without positions
  std::vector<bool> running;             // by part; of drives (role prime-mover) and of pumps
  std::vector<Motion> motions;           // of the step; empty outside a cycle
  std::vector<Command> settings;         // all commands in force: commanded flows, openings, gas pressures, solenoids
  std::vector<std::string> energised;    // solenoid tags, in the order they were commanded
  std::vector<PartId> unsettled;         // piloted valves whose position would not settle: all are possible, none sure
};

struct States {
  std::vector<State> states;             // rest first, then steps or single actuations, stop, late
  std::size_t dropped = 0;               // over the cap of 4096
};

// Rest; with a cycle its steps, the stop states and the late states; without one every single actuation and the
// coupled pairs. Order is that of the text. (Checks page B.0.)
States states_of(const Circuit& circuit, std::size_t most = 4096);

// The state at rest alone.
State rest_state(const Circuit& circuit);

// The states to ask how a running drive idles: the idle steps, else rest if a drive runs in it. Indices into `states`.
std::vector<std::size_t> idle_states(const States& states);

// The drive of a pump (`driven-by`), or the pump itself when none is named.
PartId drive_of(const Circuit& circuit, PartId pump);

}  // namespace ferrule
