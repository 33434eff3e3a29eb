// Circuits from text with the library, for tests of what comes after reading.
#pragma once

#include <memory>
#include <sstream>
#include <string>

#include "compiler/paths/paths.hpp"
#include "compiler/states/state.hpp"
#include "support/outside.hpp"

namespace built {

using namespace ferrule;

inline const tests::Outside& stdlib() {
  static const tests::Outside once;
  return once;
}

// "12:5 N-02 sentence | fix", one line a message.
inline std::string shown(const Compilation& compilation) {
  std::ostringstream out;
  for (const Message& message : compilation.messages) {
    const Span at = message.places[0].span;
    const Position place = position_of(compilation.sources[at.file], at.begin);
    out << place.line << ':' << place.column << ' ' << message.code << ' ' << message.sentence << " | " << message.fix << '\n';
  }
  return out.str();
}

struct Built {
  std::unique_ptr<Compilation> compilation;
  const Circuit& circuit;
  PassageGraph graph;
  States states;

  explicit Built(const std::string& text)
      : compilation(compile(stdlib(), "test.fer", text)), circuit(compilation->circuit), graph(passages_of(circuit)),
        states(states_of(circuit)) {}

  std::string messages() const { return shown(*compilation); }
  PartId part(const std::string& tag) const { return circuit.by_tag.at(tag); }
  NodeId node(const std::string& tag, const std::string& port) const {
    return circuit.ports[circuit.port_of(part(tag), port)].node;
  }
  const State& state(const std::string& name) const {
    for (const State& state : states.states)
      if (state.name == name) return state;
    throw std::runtime_error("no state " + name);
  }
  std::string state_names() const {
    std::string names;
    for (const State& state : states.states) names += (names.empty() ? "" : " | ") + state.name;
    return names;
  }
  std::string position(const std::string& state_name, const std::string& valve) const {
    const PartId id = part(valve);
    return circuit.parts[id].positions[state(state_name).position[id.index]].name;
  }
  StatePaths paths(const std::string& state_name) const { return paths_in(circuit, graph, state(state_name)); }
  Condition condition(const std::string& state_name, const std::string& tag, const std::string& port) const {
    return paths(state_name).nodes[node(tag, port).index];
  }
  Reach reach_of(const std::string& state_name, const std::string& tag, const std::string& port) const {
    const PortId wanted = circuit.port_of(part(tag), port);
    for (const Reach& reach : paths(state_name).ports)
      if (reach.port == wanted) return reach;
    throw std::runtime_error("no reach of " + tag + "." + port);
  }
  std::string words(const std::string& state_name) const { return in_words(circuit, paths(state_name)); }
};

// A pump, its relief valve and reservoir, to which a test adds the rest. P is 0P1.P, the return is 0Z1.
inline std::string with_supply(const std::string& rest) {
  return "reservoir 0Z1 { volume 40 L }\n"
         "electric-motor 0M1 { power 4 kW, speed 1450 rpm }\n"
         "fixed-pump 0P1 { displacement 10 cm3/rev, driven-by 0M1 }\n"
         "relief-valve 0V1 { setting 150 bar }\n"
         "suction 0Z1 -- {hose DN 25, length 0.5 m} -- 0P1.S\n"
         "pressure 0P1.P -- 0V1.P\n"
         "return 0V1.T -- 0Z1\n" +
         rest;
}

}  // namespace built
