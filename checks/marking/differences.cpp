#include "checks/marking/differences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ferrule::marking {
namespace {

// Pressures closer than this are those of lines and fittings, which the task leaves free.
constexpr double small_pressure = 5e5;

std::string spoken(const StateRecord& state) {
  if (state.state_class == StateClass::rest) return "at rest";
  if (state.state_class != StateClass::stop) return fmt::format("in step \"{}\"", state.name);
  constexpr std::string_view prefix = "stop after ";
  return state.name.starts_with(prefix) ? fmt::format("after a power cut in step \"{}\"", state.name.substr(prefix.size())) : "after a power cut";
}

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

struct Comparing {
  const Marked& model;
  const Marked& student;
  const Pairing& pairing;
  double tolerance;
  Comparison& out;

  void add(Aspect aspect, const std::string& state, std::string sentence) {
    out.differences.push_back({aspect, state, std::move(sentence)});
  }
  void count(Aspect aspect, bool agrees) {
    Compared& state = out.states.back();
    ++state.asked[static_cast<std::size_t>(aspect)];
    state.lost[static_cast<std::size_t>(aspect)] += !agrees;
  }
  bool close(double a, double b, double least) const { return std::abs(a - b) <= std::max(least, tolerance * std::max(std::abs(a), std::abs(b))); }
};

// ---------------------------------------------------------------- words about an actuator

std::string port_word(const Circuit& circuit, const PortRecord& port) {
  const std::string name = circuit.ports[port.port].name;
  if (port.to_tank == Joined::open) return name + " is joined to the tank";
  if (port.fed == Joined::open) return name + " is fed";
  if (port.fed == Joined::by_pressure) return name + " is fed only once a pressure valve opens";
  if (port.to_tank == Joined::by_pressure) return name + " is let off only by a pressure valve";
  return name + " is shut off";
}

std::string ports_in_words(const Circuit& circuit, const ActuatorRecord& actuator) {
  std::vector<std::string> words;
  for (const PortRecord& port : actuator.ports) words.push_back(port_word(circuit, port));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string asked_in_words(const StateRecord& state, const ActuatorRecord& asked) {
  switch (asked.moves) {
    case Moves::out: return "It should go out";
    case Moves::in: return "It should go in";
    case Moves::turns_ab: return "It should turn from A to B";
    case Moves::turns_ba: return "It should turn from B to A";
    case Moves::free: return "It should be free to move";
    case Moves::stands: break;
  }
  return state.state_class == StateClass::stop ? "It should stay" : "It should stand";
}

std::string name_of(const Marked& student, const ActuatorRecord& actuator) { return student.circuit.parts[actuator.part].tag; }

// ---------------------------------------------------------------- one actuator in one state

// What stands feels the supply only where the oil is not let off; pressure valves do not move it here.
enum class Feels : std::uint8_t { nothing, supply, tank };
Feels felt(const PortRecord& port) {
  return port.to_tank == Joined::open ? Feels::tank : port.fed == Joined::open ? Feels::supply : Feels::nothing;
}

bool joined_alike(const ActuatorRecord& a, const ActuatorRecord& b) {
  return std::equal(a.ports.begin(), a.ports.end(), b.ports.begin(), b.ports.end(), [](const PortRecord& x, const PortRecord& y) { return felt(x) == felt(y); });
}

bool throttled_alike(const ActuatorRecord& a, const ActuatorRecord& b) {
  if (a.ports.size() != b.ports.size()) return true;
  for (std::size_t i = 0; i < a.ports.size(); ++i)
    if (a.ports[i].throttled != b.ports[i].throttled) return false;
  return true;
}

bool stands(const ActuatorRecord& actuator) { return actuator.moves == Moves::stands; }

// By a valve, not by the pump.
bool is_held(const ActuatorRecord& actuator) { return stands(actuator) && actuator.hold != Hold::pressed && actuator.hold != Hold::nothing; }

std::string throttle_word(const ActuatorRecord& actuator, const Circuit& circuit) {
  std::vector<std::string> names;
  for (const PortRecord& port : actuator.ports)
    if (port.throttled) names.push_back(circuit.ports[port.port].name);
  return names.empty() ? "without a throttle" : fmt::format("throttled at {}", fmt::join(names, " and "));
}

void compare_motion(Comparing& in, const StateRecord& state, const ActuatorRecord& asked, const ActuatorRecord& does, bool& agrees) {
  const std::string where = spoken(state), who = name_of(in.student, does);
  agrees = asked.moves == does.moves;
  if (!agrees) {
    in.add(Aspect::function, where, fmt::format("{} {} {}: {}. {}.", capital(where), who, word_of(does.moves), ports_in_words(in.student.circuit, does),
                                                asked_in_words(state, asked)));
    in.out.differences.back().unsafe = state.state_class == StateClass::stop && stands(asked) && does.moves != Moves::free;
  } else if (stands(asked) && !joined_alike(asked, does) && !(is_held(asked) && is_held(does))) {
    agrees = false;
    in.add(Aspect::function, where, fmt::format("{} {} stands, as asked, but not in the way asked: {}.", capital(where), who, ports_in_words(in.student.circuit, does)));
  } else if (!stands(asked) && !throttled_alike(asked, does)) {
    agrees = false;
    in.add(Aspect::function, where, fmt::format("{} {} {} {}. The task has the oil controlled at another place.", capital(where), who, word_of(does.moves),
                                                throttle_word(does, in.student.circuit)));
  }
  in.count(Aspect::function, agrees);
}

void compare_hold(Comparing& in, const StateRecord& state, const ActuatorRecord& asked, const ActuatorRecord& does, bool same_motion) {
  if (!is_held(asked)) return;
  const bool agrees = same_motion && does.hold >= asked.hold;
  in.count(Aspect::hold, agrees);
  if (agrees || !same_motion) return;
  const std::string where = spoken(state), who = name_of(in.student, does);
  in.add(Aspect::hold, where, does.hold == Hold::spool
                                  ? fmt::format("{} {} is held by a spool only and will creep. The task asks for a leak-free hold.", capital(where), who)
                                  : fmt::format("{} nothing holds {}: {}. It should be held.", capital(where), who, ports_in_words(in.student.circuit, does)));
}

// ---------------------------------------------------------------- numbers

struct Compare {
  std::string what;
  std::optional<double> asked, found;
  Dimension dimension;
  double least;
};

void compare_numbers(Comparing& in, const StateRecord& state, const ActuatorRecord& asked, const ActuatorRecord& does, bool same_motion) {
  if (stands(asked) || asked.moves == Moves::free) return;
  const bool turns = asked.moves == Moves::turns_ab || asked.moves == Moves::turns_ba;
  std::vector<Compare> all{{"speed", asked.speed, does.speed, turns ? dimension::rotation : dimension::speed, 0},
                           {turns ? "torque at the limit" : "force at the limit", asked.force, does.force, turns ? dimension::torque : dimension::force, 0}};
  for (std::size_t i = 0; i < asked.ports.size() && i < does.ports.size(); ++i)
    all.push_back({"pressure at " + in.student.circuit.ports[does.ports[i].port].name, asked.ports[i].pressure, does.ports[i].pressure, dimension::pressure, small_pressure});
  bool agrees = same_motion;
  for (const Compare& one : all) {
    if (!same_motion || !one.asked || !one.found || in.close(*one.asked, *one.found, one.least)) continue;
    agrees = false;
    in.add(Aspect::number, spoken(state), fmt::format("{} the {} of {} is {}; {} is asked.", capital(spoken(state)), one.what, name_of(in.student, does),
                                                      shown({std::abs(*one.found), one.dimension}), shown({std::abs(*one.asked), one.dimension})));
  }
  in.count(Aspect::number, agrees);
}

// ---------------------------------------------------------------- the supply

void compare_idle(Comparing& in, const StateRecord& asked, const StateRecord& does) {
  if (!asked.idles) return;
  const bool agrees = does.settled && does.idle <= asked.idle;
  in.count(Aspect::idle, agrees);
  if (agrees) return;
  in.add(Aspect::idle, spoken(asked), fmt::format("{} the pump works at {} and {} goes into heat. The task asks for {}.", capital(spoken(asked)),
                                                  shown({does.supply, dimension::pressure}), shown({does.power, dimension::power}),
                                                  asked.idle == Idle::unloaded ? "an unloaded pump" : "a pump below its limit"));
}

// ---------------------------------------------------------------- a state

// What the model asks for in a state that the student's circuit does not have or that has no numbers.
void lose_all(Comparing& in, const StateRecord& asked) {
  for (const ActuatorRecord& actuator : asked.actuators) {
    in.count(Aspect::function, false);
    if (is_held(actuator)) in.count(Aspect::hold, false);
    if (!stands(actuator) && actuator.moves != Moves::free) in.count(Aspect::number, false);
  }
  if (asked.idles) in.count(Aspect::idle, false);
}

void compare_state(Comparing& in, std::size_t index) {
  const StateRecord& asked = in.model.record.states[index];
  in.out.states.push_back({spoken(asked), {}, {}});
  if (!asked.settled) return;
  const int partner = in.pairing.states[index];
  if (partner < 0) {
    lose_all(in, asked);
    return in.add(Aspect::function, spoken(asked), fmt::format("There is no state \"{}\" in this circuit. Its cycle needs a step of this name.", asked.name));
  }
  const StateRecord& does = in.student.record.states[static_cast<std::size_t>(partner)];
  if (!does.settled) {
    lose_all(in, asked);
    return in.add(Aspect::function, spoken(asked), fmt::format("{} this circuit has no steady state that could be computed.", capital(spoken(asked))));
  }
  for (std::size_t i = 0; i < asked.actuators.size(); ++i) {
    if (in.pairing.actuators[i] < 0) {
      in.count(Aspect::function, false);
      continue;
    }
    const ActuatorRecord& wanted = asked.actuators[i];
    const ActuatorRecord& found = does.actuators[static_cast<std::size_t>(in.pairing.actuators[i])];
    bool agrees = false;
    compare_motion(in, asked, wanted, found, agrees);
    compare_hold(in, asked, wanted, found, wanted.moves == found.moves);
    compare_numbers(in, asked, wanted, found, wanted.moves == found.moves);
  }
  compare_idle(in, asked, does);
}

}  // namespace

std::string_view word_of(Aspect aspect) {
  constexpr std::string_view words[] = {"functions", "holds", "idle", "numbers", "findings"};
  return words[static_cast<std::size_t>(aspect)];
}

Comparison compared(const Marked& model, const Marked& student, const Pairing& pairing, double tolerance) {
  Comparison out;
  Comparing in{model, student, pairing, tolerance, out};
  for (std::size_t i = 0; i < pairing.actuators.size(); ++i)
    if (pairing.actuators[i] < 0) {
      const Part& part = model.circuit.parts[model.record.actuators[i]];
      in.add(Aspect::function, "", fmt::format("An actuator is missing: a {}{}.", part.definition->term, part.description.empty() ? "" : " \"" + part.description + "\""));
    }
  for (std::size_t i = 0; i < model.record.states.size(); ++i) compare_state(in, i);
  return out;
}

}  // namespace ferrule::marking
