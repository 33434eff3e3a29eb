// Circuits put together element by element, without text or library, in the trade's units.
#pragma once

#include <initializer_list>
#include <map>
#include <numbers>
#include <string>
#include <vector>

#include "compiler/hydraulics/solve.hpp"

namespace bench {

using namespace ferrule;
using enum ElementKind;
using P = Parameter;

inline constexpr double bar = 1e5, lpm = 1e-3 / 60, mm = 1e-3, rpm = 2 * std::numbers::pi / 60;
inline constexpr double cm3_per_rev = 1e-6 / (2 * std::numbers::pi), kN = 1000;

struct Given {
  Parameter id;
  double si;
};

struct Bench {
  Circuit circuit;
  State state;
  std::map<std::string, NodeId> nodes;
  std::map<std::string, ElementId> elements;

  NodeId node(const std::string& name) {
    if (name.empty()) return {};
    const auto found = nodes.find(name);
    return found != nodes.end() ? found->second : nodes[name] = circuit.nodes.add(Node{});
  }

  PartId part(const std::string& tag) {
    const auto found = circuit.by_tag.find(tag);
    if (found != circuit.by_tag.end()) return found->second;
    Part made;
    made.tag = tag;
    state.position.push_back(-1);
    state.running.push_back(true);
    return circuit.by_tag[tag] = circuit.parts.add(made);
  }

  // `tag` may carry the element's name behind a blank: "CB1 check".
  Element& add(ElementKind kind, const std::string& tag, std::vector<std::string> ends, std::vector<Given> given = {},
               std::vector<std::string_view> flags = {}) {
    Element element;
    element.kind = kind;
    element.part = part(tag.substr(0, tag.find(' ')));
    element.name = tag.find(' ') == tag.npos ? "" : tag.substr(tag.find(' ') + 1);
    for (const std::string& end : ends) element.ends.push_back(node(end));
    for (const Given& one : given) element.parameters.push_back({one.id, one.si, Origin::given});
    element.flags = flags;
    elements[tag] = circuit.elements.add(element);
    return circuit.elements[elements[tag]];
  }

  void senses(const std::string& tag, std::vector<std::pair<std::string, double>> list) {
    for (const auto& [name, weight] : list) {
      const NodeId at = node(name);
      circuit.elements[elements[tag]].senses.push_back({at, weight});
    }
  }

  void tank(const std::string& name) { add(reservoir, "T1", {name}); }

  void pump(const std::string& tag, const std::string& in, const std::string& out, double cm3, double r_min, double eta_v) {
    add(displacement, tag, {in, out}, {{P::displacement, cm3 * cm3_per_rev}, {P::speed, r_min * rpm}, {P::volumetric, eta_v}}, {"pump"});
  }

  void relief(const std::string& tag, const std::string& in, const std::string& out, double cracks, double full, double at) {
    add(pressure_path, tag, {in, out}, {{P::cracking, cracks * bar}, {P::full_flow, full * bar}, {P::full_flow_flow, at * lpm}});
  }

  void path(const std::string& tag, const std::string& a, const std::string& b, double drops, double at) {
    add(restriction, tag, {a, b}, {{P::drop, drops * bar}, {P::drop_flow, at * lpm}});
  }

  void tube(const std::string& tag, const std::string& a, const std::string& b, double bore_mm, double metres, double k) {
    add(pipe, tag, {a, b}, {{P::bore, bore_mm * mm}, {P::length, metres}, {P::losses, k}, {P::roughness, 1.5e-6}});
  }

  void cylinder(const std::string& tag, const std::string& cap, const std::string& rod, double bore_mm, double rod_mm, double friction) {
    add(piston, tag, {cap, rod}, {{P::bore, bore_mm * mm}, {P::rod, rod_mm * mm}, {P::friction, friction}});
  }

  void moves(const std::string& tag, Motion::Kind kind, double force = 0, Load::Sense sense = Load::Sense::against) {
    Motion motion;
    motion.kind = kind;
    motion.actuator = part(tag);
    if (force != 0) motion.load = {Quantity{force, dimension::force}, sense};
    state.motions.push_back(motion);
  }

  void oil(double cst, double density) {
    Fluid fluid;
    fluid.facts.push_back({"viscosity", "", FactKind::quantity, {{cst * 1e-6, dimension::kinematic_viscosity}}, "", Origin::given, {}});
    fluid.facts.push_back({"density", "", FactKind::quantity, {{density, dimension::density}}, "", Origin::given, {}});
    circuit.fluids.push_back(fluid);
  }

  OperatingPoint solved() const { return solve(circuit, state); }
};

// Results of a bench in bar, L/min, mm/s, rpm.
struct Reading {
  const Bench& on;
  OperatingPoint point;
  explicit Reading(const Bench& bench) : on(bench), point(bench.solved()) {}
  double p(const std::string& name) const { return point.pressure[on.nodes.at(name).index] / bar; }
  double q(const std::string& tag) const { return point.flow[on.elements.at(tag).index] / lpm; }
  double v(const std::string& tag) const { return point.speed[on.elements.at(tag).index] * 1000; }
  double n(const std::string& tag) const { return point.speed[on.elements.at(tag).index] / rpm; }
  bool trapped(const std::string& name) const { return point.trapped[on.nodes.at(name).index]; }
};

}  // namespace bench
