#include "render/cycle.hpp"

#include <algorithm>

#include "render/captions.hpp"

namespace ferrule {
namespace {

bool has_role(const Part& part, std::string_view role) { return part.definition != nullptr && part.definition->role(role) != nullptr; }

// What a column stands for: a solenoid by its tag, else the valve that is worked by hand or the unit that is set.
std::string signal_of(const Circuit& circuit, const Command& command) {
  if (command.part && has_role(circuit.parts[command.part], "stores")) return {};  // a state of the gas is no signal
  if (!command.solenoid.empty()) return command.solenoid;
  return command.part ? circuit.parts[command.part].tag : std::string();
}

std::string mark_of(const Circuit& circuit, const Command& command) {
  switch (command.kind) {
    case Command::Kind::on:
    case Command::Kind::running:
    case Command::Kind::open: return "+";
    case Command::Kind::pulse: return "pulse";
    case Command::Kind::off:
    case Command::Kind::closed:
    case Command::Kind::gas: return "";
    case Command::Kind::stopped: return "off";
    case Command::Kind::at: return command.amount ? on_sheet(*command.amount) : "+";
    case Command::Kind::lever:
    case Command::Kind::stage: break;
  }
  const auto& positions = circuit.parts[command.part].positions;
  const auto index = static_cast<std::size_t>(command.position);
  return command.position >= 0 && index < positions.size() ? positions[index].name : "+";
}

bool holds(const Circuit& circuit, const Step& step, const ControlRule::Term& term) {
  return std::any_of(step.commands.begin(), step.commands.end(), [&](const Command& command) {
    const bool same = term.solenoid.empty() ? command.part == term.part : command.solenoid == term.solenoid;
    return same && !mark_of(circuit, command).empty();
  });
}

bool follows(const Circuit& circuit, const Step& step, const ControlRule& rule) {
  return std::any_of(rule.any_of_all.begin(), rule.any_of_all.end(), [&](const auto& all) {
    return !all.empty() && std::all_of(all.begin(), all.end(), [&](const auto& term) { return holds(circuit, step, term); });
  });
}

// The commands of a step with those that control rules add (`0Y1 on whenever 1Y1 or 1Y2`).
std::vector<const Command*> commands_of(const Circuit& circuit, const Step& step) {
  std::vector<const Command*> commands;
  for (const Command& command : step.commands) commands.push_back(&command);
  for (const ControlRule& rule : circuit.work.control)
    if (rule.kind == ControlRule::Kind::whenever && follows(circuit, step, rule)) commands.push_back(&rule.command);
  return commands;
}

// Solenoids in the order of the valves and their rows, then whatever else a step works.
std::vector<std::string> signals_of(const Circuit& circuit) {
  std::vector<std::string> used, ordered;
  for (const Step& step : circuit.work.steps)
    for (const Command* command : commands_of(circuit, step))
      if (const auto signal = signal_of(circuit, *command); !signal.empty() && !mark_of(circuit, *command).empty()) used.push_back(signal);
  const auto add = [&](const std::string& signal) {
    const bool wanted = std::find(used.begin(), used.end(), signal) != used.end();
    if (wanted && std::find(ordered.begin(), ordered.end(), signal) == ordered.end()) ordered.push_back(signal);
  };
  for (const Part& part : circuit.parts)
    for (const PositionRow& row : part.positions)
      for (const Actuation& by : row.by) add(by.tag);
  for (const std::string& signal : used) add(signal);
  return ordered;
}

std::string motion_words(const Circuit& circuit, const Motion& motion) {
  if (!motion.actuator) return {};
  const std::string& tag = circuit.parts[motion.actuator].tag;
  const std::string travel = motion.travel ? " " + on_sheet(*motion.travel) : "";
  switch (motion.kind) {
    case Motion::Kind::extends: return tag + travel + " out";
    case Motion::Kind::retracts: return tag + travel + " in";
    case Motion::Kind::turns_ab:
    case Motion::Kind::turns_ba: return tag + " turned" + travel;
    case Motion::Kind::presses: return tag + " under pressure";
    case Motion::Kind::stands:
    case Motion::Kind::held: break;
  }
  return {};
}

std::string end_of(const Circuit& circuit, const Step& step) {
  if (!step.until.empty()) return step.until;
  if (step.lasts) return "after " + on_sheet(*step.lasts);
  std::string end;
  for (const Motion& motion : step.motions) {
    const std::string words = motion.lasts ? "after " + on_sheet(*motion.lasts) : motion_words(circuit, motion);
    if (!words.empty()) end += (end.empty() ? "" : ", ") + words;
  }
  return end;
}

bool any(const Circuit& circuit, std::string_view role) {
  return std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& part) { return has_role(part, role); });
}

bool any_hose(const Circuit& circuit) {
  return std::any_of(circuit.lines.begin(), circuit.lines.end(), [&](const Line& line) { return circuit.parts[line.part].has("dn"); });
}

}  // namespace

std::optional<sheet::CycleTable> cycle_table(const Circuit& circuit) {
  if (circuit.work.steps.size() == 0) return {};
  sheet::CycleTable table{signals_of(circuit), {}};
  for (const Step& step : circuit.work.steps) {
    sheet::CycleTable::Row row{step.text.empty() ? step.name : step.text, std::vector<std::string>(table.signals.size()), end_of(circuit, step)};
    for (const Command* command : commands_of(circuit, step)) {
      const auto at = std::find(table.signals.begin(), table.signals.end(), signal_of(circuit, *command));
      if (at != table.signals.end()) row.marks[static_cast<std::size_t>(at - table.signals.begin())] = mark_of(circuit, *command);
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::string rest_note(const Circuit& circuit) {
  std::string note = "Drawn at rest: drives off";
  const bool valves = std::any_of(circuit.parts.begin(), circuit.parts.end(), [](const Part& part) { return !part.positions.empty(); });
  if (valves) note += ", no valve actuated";
  if (any(circuit, "stores")) note += ", accumulators empty";
  return note + ".";
}

// Wording after the cautions that reports and handouts carry; an accumulator and hoses add their own.
std::string caution(const Circuit& circuit) {
  std::string text = "Caution: stored energy, loads may fall, escaping jets, hot oil.";
  if (any(circuit, "stores")) text += " Discharge accumulators first: nitrogen only, never oxygen or air.";
  if (any_hose(circuit)) text += " Restrain hoses where they can reach people.";
  return text + " Work only by qualified persons; ISO 4413 and local rules govern. A calculated aid: no certificate, no release for building.";
}

}  // namespace ferrule
