// Which states a circuit is judged in (checks page B.0): rest, steps or single actuations, stop, late.
#include <algorithm>
#include <set>

#include "compiler/states/actuation.hpp"
#include "compiler/states/coupled.hpp"
#include "compiler/states/differences.hpp"

namespace ferrule {
namespace {

bool runs_a_drive(const State& state) {
  return std::find(state.running.begin(), state.running.end(), true) != state.running.end();
}

bool is_idle(const State& state) {
  return runs_a_drive(state) && !is_at_work(state);
}

bool is_same(const State& a, const State& b) { return a.position == b.position && a.running == b.running; }

// ---------------------------------------------------------------- with a cycle

class Cycle {
 public:
  Cycle(const Circuit& circuit, const Habits& habits) : circuit_(circuit), habits_(habits), history_(at_start(circuit)) {
    add_stop("stop");
  }

  void run() {
    for (std::uint32_t index = 0; index < circuit_.work.steps.size(); ++index) run_step({index});
    add_late_states();
  }

  std::vector<State> steps, stops, late;

 private:
  void run_step(StepId id) {
    const Step& step = circuit_.work.steps[id];
    State state = actuated(circuit_, habits_, step.commands, history_, {.rest = false, .step = id});
    state.name = step.name;
    state.state_class = is_idle(state) ? StateClass::idle : StateClass::work;
    history_.position = state.position;
    pass_moment(circuit_, step.until, history_.signals);
    steps.push_back(std::move(state));
    add_stop("stop after " + step.name);
  }

  // Only valves that stay where they were put tell one stop from another.
  void add_stop(std::string name) {
    std::vector<std::int16_t> kept;
    for (PartId part : habits_.staying) kept.push_back(history_.position[part.index]);
    if (!stopped_from_.insert(std::move(kept)).second) return;
    State state = stopped(circuit_, habits_, history_);
    if (std::any_of(stops.begin(), stops.end(), [&](const State& other) { return is_same(other, state); })) return;
    state.name = std::move(name);
    stops.push_back(std::move(state));
  }

  // A step change that moves k >= 2 valves: each of them may be late (still where it was) or early (alone).
  void add_late_states() {
    for (std::size_t index = 0; index < steps.size() && steps.size() > 1; ++index) {
      const State& before = steps[index == 0 ? steps.size() - 1 : index - 1];
      add_change(before, steps[index]);
    }
  }

  void add_change(const State& before, const State& after) {
    std::vector<std::size_t> moved;
    each_difference(after.position, before.position, [&](std::size_t part) { moved.push_back(part); });
    if (moved.size() < 2) return;
    for (std::size_t part : moved) {
      add_late(before, after, {part}, circuit_.parts.rows[part].tag + " late");
      std::vector<std::size_t> others = moved;
      others.erase(std::find(others.begin(), others.end(), part));
      add_late(before, after, others, circuit_.parts.rows[part].tag + " early");
    }
  }

  void add_late(const State& before, const State& after, const std::vector<std::size_t>& behind, const std::string& who) {
    State state = after;
    for (std::size_t part : behind) state.position[part] = before.position[part];
    state.name = after.name + ", " + who;
    state.state_class = StateClass::late;
    state.motions.clear();
    // With two valves, one late is the other early. Those of one step stand together.
    for (auto other = late.rbegin(); other != late.rend() && other->step == state.step; ++other)
      if (other->position == state.position) return;
    late.push_back(std::move(state));
  }

  const Circuit& circuit_;
  const Habits& habits_;
  History history_;
  std::set<std::vector<std::int16_t>> stopped_from_;  // where the valves stood that stay where they are
};

// ---------------------------------------------------------------- without a cycle

// What brings a valve into a position: its solenoid, a hand; nothing for a pilot, which the oil itself brings.
std::optional<Command> bringing(const Circuit& circuit, PartId valve, std::int16_t position) {
  Command command;
  command.part = valve;
  command.position = position;
  command.kind = Command::Kind::lever;
  for (const Actuation& by : circuit.parts[valve].positions[position].by) {
    if (by.means == "pilot") return std::nullopt;
    if (!by.tag.empty()) {
      command.kind = Command::Kind::on;
      command.solenoid = by.tag;
    }
  }
  return command;
}

struct Single {
  Command command;
  std::string name;
};

std::vector<Single> singles_of(const Circuit& circuit, const State& rest) {
  std::vector<Single> singles;
  for (std::uint32_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[{index}];
    for (std::size_t row = 0; row < part.positions.size(); ++row) {
      const auto position = static_cast<std::int16_t>(row);
      if (position == rest.position[index]) continue;
      if (const auto command = bringing(circuit, {index}, position))
        singles.push_back({*command, part.tag + "=" + part.positions[row].name});
    }
  }
  return singles;
}

State acting(const Circuit& circuit, const Habits& habits, const std::vector<Command>& commands, std::string name) {
  State state = actuated(circuit, habits, commands, at_start(circuit), {});
  state.name = std::move(name);
  state.state_class = StateClass::work;
  return state;
}

// `2Y1 only with 1Y1`: alone it never happens, so the one it goes with acts too.
std::vector<Command> with_companions(const Circuit& circuit, const Single& single, const std::vector<Single>& singles) {
  std::vector<Command> commands{single.command};
  for (const ControlRule& rule : circuit.work.control) {
    if (rule.kind != ControlRule::Kind::only_with || rule.command.solenoid != single.command.solenoid) continue;
    if (single.command.solenoid.empty() || rule.any_of_all.empty()) continue;
    for (const ControlRule::Term& term : rule.any_of_all.front())
      for (const Single& other : singles)
        if (!term.solenoid.empty() && other.command.solenoid == term.solenoid) commands.push_back(other.command);
  }
  return commands;
}

void add_actuations(const Circuit& circuit, const Habits& habits, States& result, std::size_t most) {
  const std::vector<Single> singles = singles_of(circuit, result.states.front());
  for (const Single& single : singles)
    result.states.push_back(acting(circuit, habits, with_companions(circuit, single, singles), single.name));
  const Coupling coupling(circuit);
  for (std::size_t a = 0; a < singles.size(); ++a)
    for (std::size_t b = a + 1; b < singles.size(); ++b) {
      const PartId one = singles[a].command.part, other = singles[b].command.part;
      if (one == other || !coupling.is_coupled(one, other)) continue;
      if (result.states.size() + 1 >= most) {  // one place is kept for stop
        ++result.dropped;
        continue;
      }
      State state = acting(circuit, habits, {singles[a].command, singles[b].command}, singles[a].name + ", " + singles[b].name);
      if (!is_forbidden(circuit, state)) result.states.push_back(std::move(state));
    }
}

// Circuits of hand pumps and of actuators that no valve moves still do something while a drive runs.
void add_drive_alone(const Circuit& circuit, const Habits& habits, States& result) {
  State state = acting(circuit, habits, {}, "running");
  if (!is_same(state, result.states.front())) result.states.push_back(std::move(state));
}

}  // namespace

States states_of(const Circuit& circuit, std::size_t most) {
  States result;
  const Habits habits(circuit);
  result.states.push_back(rest_state(circuit));
  if (circuit.work.steps.size() == 0) {
    add_drive_alone(circuit, habits, result);
    add_actuations(circuit, habits, result, most);
    State stop = stopped(circuit, habits, at_start(circuit));
    stop.name = "stop";
    result.states.push_back(std::move(stop));
    return result;
  }
  Cycle cycle(circuit, habits);
  cycle.run();
  for (auto* states : {&cycle.steps, &cycle.stops})
    for (State& state : *states) result.states.push_back(std::move(state));
  for (State& state : cycle.late) {
    if (result.states.size() < most)
      result.states.push_back(std::move(state));
    else
      ++result.dropped;
  }
  return result;
}

std::vector<std::size_t> idle_states(const States& states) {
  std::vector<std::size_t> idle;
  for (std::size_t index = 0; index < states.states.size(); ++index)
    if (states.states[index].state_class == StateClass::idle) idle.push_back(index);
  if (idle.empty() && !states.states.empty() && runs_a_drive(states.states.front())) idle.push_back(0);
  return idle;
}

std::string_view word_of(StateClass state_class) {
  static constexpr std::string_view words[] = {"rest", "idle", "stop", "work", "late"};
  return words[static_cast<std::size_t>(state_class)];
}

}  // namespace ferrule
