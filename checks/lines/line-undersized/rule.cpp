// L-01: no line is passed faster than its function allows, in any state: v = Q / A, Q the largest flow of all states.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "checks/machinery/ceiling.hpp"
#include "checks/machinery/evidence.hpp"
#include "checks/machinery/line_speeds.hpp"
#include "checks/sizing/series.hpp"
#include "compiler/quantities/quantity.hpp"

namespace ferrule {

extern const Rule line_undersized;

namespace {

constexpr double error_from = 1.5, suction_error_from = 1.25;

std::string next_standard(double bore) {
  const sizing::Series& sizes = sizing::series("drilling");
  const auto* row = sizing::at_least(sizes, bore);
  return row ? sizes.written(*row) : "none in the series";
}

struct Case {
  const Solved& solved;
  const Circuit& circuit;
  const Line& line;
  const Element& pipe;
  double bore, flow;
  const State* state;
  SpeedLimit limit;
  double speed() const { return flow / (std::numbers::pi / 4 * bore * bore); }
  const std::string& tag() const { return circuit.parts[line.part].tag; }
};

// Reynolds number v d / nu.
double reynolds(const Case& c) {
  const std::vector<Oil> oils = oils_of(c.circuit);
  const NodeId node = c.circuit.ports[PortId{c.circuit.parts[c.line.part].first_port}].node;
  return c.speed() * c.bore / oils[oils.size() == 1 ? 0 : node.index].kinematic_viscosity;
}

void report(const Case& c, Findings& findings) {
  Message m = message_of(line_undersized, c.circuit, c.line.part, "");
  const double ratio = c.speed() / c.limit.speed, needed = std::sqrt(4 * c.flow / (std::numbers::pi * c.limit.speed));
  const bool grave = ratio > (c.line.function == LineFunction::suction ? suction_error_from : error_from);
  m.severity = grave ? Severity::error : Severity::warning;
  const std::string q = fmt::format("{:.1f} L/min", c.flow * 60000), v = fmt::format("{:.1f} m/s", c.speed());
  m.sentence = fmt::format("{} ({}, {}) carries {}{}: {}, limit {:.1f} m/s", c.tag(), word_of(c.line.function), shown({c.bore, dimension::length}), q,
                           c.state ? " in " + c.state->name : "", v, c.limit.speed);
  m.places.push_back(at_part(c.circuit, c.line.part, "this line"));
  if (c.state) set_state(m, *c.state);
  m.values.push_back({"velocity", fmt::format("{} / ({:.2f} cm2) = {}", q, std::numbers::pi / 4 * c.bore * c.bore * 1e4, v),
                      fmt::format("{:.1f} m/s", c.limit.speed), "derived"});
  m.values.push_back({"bore needed", fmt::format("{:.1f} mm, next standard size {}", needed * 1000, next_standard(needed)), "", "derived"});
  m.values.push_back({"Reynolds number", fmt::format("{:.0f}", reynolds(c)), "", "derived"});
  m.limit_source = c.limit.source;
  m.fix = fmt::format("a bore of {} or more, or a second line", next_standard(needed));
  findings.messages.push_back(std::move(m));
}

// Data of pumps and cylinders that were defaulted and carry every flow.
std::vector<std::string> defaults_of_flows(const Circuit& circuit) {
  std::vector<std::string> out;
  for (const Part& part : circuit.parts) {
    if (!part.definition || !part.definition->role("feeds")) continue;
    // The default speed of a pump is that of its drive: only a drive without speed is a guess.
    const auto more = defaults_of(circuit, circuit.parts.id_of(part), {"volumetric", "displacement"});
    out.insert(out.end(), more.begin(), more.end());
  }
  return out;
}

void put(const Case& c, Outcome outcome, std::string because, Findings& findings) {
  findings.verdicts.push_back(verdict_of(line_undersized, c.circuit, c.line.part, outcome, std::move(because)));
}

void judge(const Case& c, const LineFlow& flow, const std::vector<std::string>& defaults, Findings& findings) {
  if (c.speed() > c.limit.speed) return report(c, findings);
  if (flow.unsolved)
    return put(c, Outcome::not_proved, fmt::format("{:.1f} m/s in the states that could be solved; {} could not", c.speed(), flow.unsolved), findings);
  if (c.limit.unlimited_zone() && c.speed() > c.limit.lowest)
    return put(c, Outcome::not_checked, fmt::format("{:.1f} m/s; needs the pressure that its zone can reach, but no set relief valve limits it: "
                                                    "the limit is {:.0f} to {:.0f} m/s by that pressure", c.speed(), c.limit.lowest, c.limit.speed), findings);
  const std::string speed = fmt::format("{}{:.1f} of {:.1f} m/s", flow.is_bound ? "at most " : "", c.speed(), c.limit.lowest);
  if (defaults.empty()) return put(c, Outcome::pass, speed, findings);
  put(c, Outcome::pass_on_assumption, speed + "; " + joined(defaults, ", "), findings);
}

void judge_line(const Solved& solved, const Line& line, const Element* pipe, const std::vector<std::optional<double>>& ceilings,
                const std::vector<double>& bounds, const std::vector<std::string>& defaults, Findings& findings) {
  const Circuit& circuit = solved.circuit;
  if (!pipe || carries_no_steady_flow(circuit, line.function, *pipe)) return;
  const auto bore = pipe->value(Parameter::bore);
  if (!bore || *bore <= 0) {
    findings.verdicts.push_back(verdict_of(line_undersized, circuit, line.part, Outcome::not_checked, "needs the bore of the line"));
    return;
  }
  const auto ceiling = ceiling_of(ceilings, *pipe);
  const SpeedLimit limit = speed_limit(circuit, line, *bore, ceiling);
  const auto with = [&](const LineFlow& flow) {
    return Case{solved, circuit, line, *pipe, *bore, with_geometric(solved, line, *pipe, flow.most), flow.state, limit};
  };
  // A bound that passes is a proof for all states; only what it leaves open is solved.
  LineFlow flow{bounds[circuit.elements.id_of(*pipe).index], nullptr, 0, true};
  if (!(with(flow).speed() <= limit.lowest)) flow = greatest_flow(solved, circuit.elements.id_of(*pipe));
  judge(with(flow), flow, defaults, findings);
}

void check(const Solved& solved, Findings& findings) {
  const auto ceilings = ceilings_of(solved);
  const std::vector<std::string> defaults = defaults_of_flows(solved.circuit);
  const std::vector<const Element*> pipes = pipes_of(solved.circuit);
  const std::vector<double> bounds = solved.points.solver().most_flows(solved.graph, before_late(solved.states));
  for (const Line& line : solved.circuit.lines) judge_line(solved, line, pipes[line.part.index], ceilings, bounds, defaults, findings);
}

}  // namespace

const Rule line_undersized{"L-01", "line-undersized", Severity::warning, check};

}  // namespace ferrule
