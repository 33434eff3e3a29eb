#include "compiler/states/actuation.hpp"

#include <algorithm>

#include "compiler/paths/pilots.hpp"

namespace ferrule {
namespace {

bool is_kept(const PositionRow& row) {
  return std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) { return by.means == "detent"; });
}

// Only a spring brings a valve back by itself; one without stays where it was put, detent or not.
bool is_sprung(const PositionRow& row) {
  return std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) { return by.means.rfind("spring", 0) == 0; });
}

bool has_springs(const Part& part) { return std::any_of(part.positions.begin(), part.positions.end(), is_sprung); }

bool is_role(const Part& part, std::string_view role) { return part.definition && part.definition->role(role); }

// `1Y1 on`, `1Y1 at 40 %`, `1Y1 pulse`, `V1 lever a`.
bool is_actuating(const Command& command) {
  using enum Command::Kind;
  return command.kind == on || command.kind == pulse || command.kind == lever || command.kind == at ||
         command.kind == open || command.kind == closed;
}

class Actuating {
 public:
  Actuating(const Circuit& circuit, const Habits& habits, const History& history, Occasion occasion)
      : circuit_(circuit), habits_(habits), history_(history), occasion_(occasion) {
    state.step = occasion.step;
    if (occasion.step) state.motions = circuit.work.steps[occasion.step].motions;
    state.position = habits.at_rest;
    state.running.assign(circuit.parts.size(), false);
    commanded_.assign(circuit.parts.size(), false);
    for (PartId part : habits.staying) state.position[part.index] = left_alone(circuit.parts[part], history.position[part.index]);
  }

  // Rules may follow from other rules (a solenoid that works whenever another does), so until nothing is added.
  void apply(const std::vector<Command>& commands) {
    for (const Command& command : commands) take(command);
    for (std::size_t round = 0; round <= circuit_.work.control.size(); ++round) {
      bool added = false;
      for (const Command& command : commanded_by_rules({circuit_, state, history_.signals}))
        added = take_if_new(command) || added;
      if (!added) break;
    }
  }

  void run_drives() {
    for (PartId drive : habits_.drives) state.running[drive.index] = runs(drive);
    for (const auto& [pump, drive] : habits_.pumps)
      state.running[pump.index] = state.running[drive.index] && !is_told(pump, Command::Kind::stopped);
  }

  void settle() {
    if (habits_.graph) state.unsettled = settle_pilots(circuit_, *habits_.graph, habits_.pilots, commanded_, state);
  }

  State state;

 private:
  void take(const Command& command) {
    state.settings.push_back(command);
    if (!command.part || !is_actuating(command)) return;
    if (!command.solenoid.empty()) state.energised.push_back(command.solenoid);
    if (command.position < 0 || commanded_[command.part.index]) return;
    state.position[command.part.index] = static_cast<std::int16_t>(command.position);
    commanded_[command.part.index] = true;
  }

  // What the step itself says of a solenoid or drive goes before the rule.
  bool take_if_new(const Command& command) {
    const bool said = std::any_of(state.settings.begin(), state.settings.end(), [&](const Command& other) {
      return other.part == command.part && other.solenoid == command.solenoid;
    });
    if (!said) take(command);
    return !said;
  }

  bool is_told(PartId part, Command::Kind kind) const {
    return std::any_of(state.settings.begin(), state.settings.end(),
                       [&](const Command& command) { return command.part == part && command.kind == kind; });
  }

  bool runs(PartId drive) const {
    const Part& part = circuit_.parts[drive];
    if (occasion_.rest && is_switched_by_cycle(circuit_, drive)) return false;
    if (is_told(drive, Command::Kind::stopped) || is_told(drive, Command::Kind::off)) return false;
    if (is_told(drive, Command::Kind::running) || is_told(drive, Command::Kind::on)) return true;
    // A hand pump works only where work is done.
    if (is_role(part, "hand")) return !occasion_.rest;
    if (part.has("stops-at-idle") && (occasion_.rest || (occasion_.step && !is_at_work(state)))) return false;
    const auto& rules = circuit_.work.control;
    return std::none_of(rules.begin(), rules.end(), [&](const ControlRule& rule) {
      return rule.command.part == drive && rule.command.kind == Command::Kind::running && decides(circuit_, rule);
    });
  }

  const Circuit& circuit_;
  const Habits& habits_;
  const History& history_;
  Occasion occasion_;
  std::vector<bool> commanded_;
};

}  // namespace

bool stays_put(const Part& part) {
  return !part.positions.empty() &&
         (!has_springs(part) || std::any_of(part.positions.begin(), part.positions.end(), is_kept));
}

std::int16_t left_alone(const Part& part, std::int16_t before) {
  if (part.positions.empty()) return -1;
  const bool known = before >= 0 && static_cast<std::size_t>(before) < part.positions.size();
  if (known && (!has_springs(part) || is_kept(part.positions[before]))) return before;
  return static_cast<std::int16_t>(part.rest < 0 ? 0 : part.rest);
}

History at_start(const Circuit& circuit) {
  History history;
  for (const Part& part : circuit.parts)
    history.position.push_back(static_cast<std::int16_t>(part.positions.empty() ? -1 : std::max(part.rest, 0)));
  for (const Command& command : circuit.work.starts)
    if (command.part && command.position >= 0)
      history.position[command.part.index] = static_cast<std::int16_t>(command.position);
  history.signals = signals_at_start(circuit);
  return history;
}

bool is_at_work(const State& state) {
  return std::any_of(state.motions.begin(), state.motions.end(), [](const Motion& motion) {
    return motion.kind != Motion::Kind::stands && motion.kind != Motion::Kind::held;
  });
}

State actuated(const Circuit& circuit, const Habits& habits, const std::vector<Command>& commands, const History& history,
               Occasion occasion) {
  Actuating actuating(circuit, habits, history, occasion);
  actuating.apply(commands);
  actuating.run_drives();
  actuating.apply({});  // rules that ask whether a drive runs
  actuating.settle();
  return std::move(actuating.state);
}

State stopped(const Circuit& circuit, const Habits& habits, const History& history) {
  Actuating actuating(circuit, habits, history, {});
  actuating.settle();
  actuating.state.state_class = StateClass::stop;
  return std::move(actuating.state);
}

PartId drive_of(const Circuit& circuit, PartId pump) {
  const FactValue* drive = circuit.parts[pump].fact("driven-by");
  const PartId part = drive ? circuit.part_named(drive->word) : PartId{};
  return part ? part : pump;
}

State rest_state(const Circuit& circuit) {
  State state = actuated(circuit, Habits(circuit), {}, at_start(circuit), {.rest = true, .step = {}});
  state.name = "rest";
  state.state_class = StateClass::rest;
  return state;
}

}  // namespace ferrule
