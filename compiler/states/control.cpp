#include "compiler/states/control.hpp"

#include <algorithm>

namespace ferrule {
namespace {

bool is_energised(const State& state, const std::string& solenoid) {
  return std::find(state.energised.begin(), state.energised.end(), solenoid) != state.energised.end();
}

// A valve named in a condition stands for any of its solenoids.
bool is_any_energised(const Circuit& circuit, const State& state, PartId valve) {
  const auto& rows = circuit.parts[valve].positions;
  return std::any_of(rows.begin(), rows.end(), [&](const PositionRow& row) {
    return std::any_of(row.by.begin(), row.by.end(), [&](const Actuation& by) { return is_energised(state, by.tag); });
  });
}

bool is_moving(const Motion& motion) {
  return motion.kind != Motion::Kind::stands && motion.kind != Motion::Kind::held;
}

bool does(const Motion& motion, const std::string& word) {
  using enum Motion::Kind;
  if (word == "extends") return motion.kind == extends;
  if (word == "retracts") return motion.kind == retracts;
  if (word == "turns") return motion.kind == turns_ab || motion.kind == turns_ba;
  if (word == "presses") return motion.kind == presses;
  return word == "moves" && is_moving(motion);
}

bool has_motion(const State& state, PartId actuator, const std::string& word) {
  return std::any_of(state.motions.begin(), state.motions.end(),
                     [&](const Motion& motion) { return motion.actuator == actuator && does(motion, word); });
}

bool is_in_step(const Circuit& circuit, const State& state, const std::string& name) {
  return state.step && circuit.work.steps[state.step].name == name;
}

bool is_step(const Circuit& circuit, const std::string& name) {
  const auto& steps = circuit.work.steps;
  return std::any_of(steps.begin(), steps.end(), [&](const Step& step) { return step.name == name; });
}

bool is_operators_word(const Circuit& circuit, const ControlRule::Term& term) {
  return !term.part && term.solenoid.empty() && !is_step(circuit, term.text);
}

struct Passing {
  std::string_view moment;  // behind the tag: "PS1 opens"
  Contact before, after;
};
constexpr Passing passings[] = {{" opens", Contact::closed, Contact::open}, {" closes", Contact::open, Contact::closed}};

// The switch whose contact changes when a step ends so; null for words of an operator and for ends that say no moment.
const Passing* passing_of(const Circuit& circuit, const std::string& ending, PartId& part) {
  for (const Passing& passing : passings)
    if (ending.ends_with(passing.moment)) {
      part = circuit.part_named(std::string_view(ending).substr(0, ending.size() - passing.moment.size()));
      return part ? &passing : nullptr;
    }
  return nullptr;
}

bool has_contact(const Moment& moment, const ControlRule::Term& term) {
  const Contact wanted = term.state == "closed" ? Contact::closed : Contact::open;
  return moment.signals.contacts[term.part.index] == wanted;
}

// "PS1 opens" as steps and rules write it.
std::string moment_of(const Circuit& circuit, const ControlRule::Term& term) {
  return term.part ? circuit.parts[term.part].tag + " " + term.state : term.text;
}

}  // namespace

bool holds(const Moment& moment, const ControlRule::Term& term) {
  if (!term.solenoid.empty()) return is_energised(moment.state, term.solenoid);
  // What an operator does is not known here; the steps say what then happens.
  if (!term.part) return is_in_step(moment.circuit, moment.state, term.text);
  if (term.state == "running") return moment.state.running[term.part.index];
  if (term.state.empty() || term.state == "on") return is_any_energised(moment.circuit, moment.state, term.part);
  if (term.state == "closed" || term.state == "open") return has_contact(moment, term);
  return has_motion(moment.state, term.part, term.state);
}

bool is_condition_met(const Moment& moment, const ControlRule& rule) {
  return std::any_of(rule.any_of_all.begin(), rule.any_of_all.end(), [&](const auto& all) {
    return !all.empty() &&
           std::all_of(all.begin(), all.end(), [&](const ControlRule::Term& term) { return holds(moment, term); });
  });
}

std::vector<Command> commanded_by_rules(const Moment& moment) {
  std::vector<Command> commands;
  const auto& rules = moment.circuit.work.control;
  for (std::size_t index = 0; index < rules.size(); ++index) {
    const ControlRule& rule = rules[index];
    const bool in_force = rule.kind == ControlRule::Kind::whenever     ? is_condition_met(moment, rule)
                          : rule.kind == ControlRule::Kind::from_until ? moment.signals.latched[index]
                                                                       : false;
    if (in_force) commands.push_back(rule.command);
  }
  return commands;
}

Signals signals_at_start(const Circuit& circuit) {
  Signals signals{std::vector<bool>(circuit.work.control.size()), std::vector<Contact>(circuit.parts.size(), Contact::unknown)};
  for (const Step& step : circuit.work.steps) {
    PartId part;
    const Passing* passing = passing_of(circuit, step.until, part);
    if (passing && signals.contacts[part.index] == Contact::unknown) signals.contacts[part.index] = passing->before;
  }
  return signals;
}

void pass_moment(const Circuit& circuit, const std::string& ending, Signals& signals) {
  if (ending.empty()) return;
  PartId part;
  if (const Passing* passing = passing_of(circuit, ending, part)) signals.contacts[part.index] = passing->after;
  const auto& rules = circuit.work.control;
  for (std::size_t index = 0; index < rules.size(); ++index) {
    if (rules[index].kind != ControlRule::Kind::from_until) continue;
    if (moment_of(circuit, rules[index].from) == ending) signals.latched[index] = true;
    if (moment_of(circuit, rules[index].until) == ending) signals.latched[index] = false;
  }
}

bool is_forbidden(const Circuit& circuit, const State& state) {
  const auto acts = [&](const Command& command) {
    return command.solenoid.empty() ? is_any_energised(circuit, state, command.part) : is_energised(state, command.solenoid);
  };
  const Signals none{std::vector<bool>(circuit.work.control.size()), std::vector<Contact>(circuit.parts.size(), Contact::unknown)};
  return std::any_of(circuit.work.control.begin(), circuit.work.control.end(), [&](const ControlRule& rule) {
    if (rule.kind != ControlRule::Kind::never_with && rule.kind != ControlRule::Kind::only_with) return false;
    if (!acts(rule.command)) return false;
    const bool met = is_condition_met({circuit, state, none}, rule);
    return rule.kind == ControlRule::Kind::never_with ? met : !met;
  });
}

bool decides(const Circuit& circuit, const ControlRule& rule) {
  if (rule.kind == ControlRule::Kind::from_until) return true;
  return rule.kind == ControlRule::Kind::whenever &&
         std::any_of(rule.any_of_all.begin(), rule.any_of_all.end(), [&](const auto& all) {
           return std::none_of(all.begin(), all.end(),
                               [&](const ControlRule::Term& term) { return is_operators_word(circuit, term); });
         });
}

bool is_switched_by_cycle(const Circuit& circuit, PartId drive) {
  const auto switches = [&](const Command& command) {
    return command.part == drive && (command.kind == Command::Kind::stopped || command.kind == Command::Kind::running);
  };
  for (const Step& step : circuit.work.steps)
    if (std::any_of(step.commands.begin(), step.commands.end(), switches)) return true;
  return std::any_of(circuit.work.control.begin(), circuit.work.control.end(),
                     [&](const ControlRule& rule) { return switches(rule.command) && decides(circuit, rule); });
}

}  // namespace ferrule
