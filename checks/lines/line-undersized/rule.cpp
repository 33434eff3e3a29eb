// L-01: no line is passed faster than its function allows, in any state: v = Q / A, Q the largest flow of all states.
//
// Limits are common practice (trade texts span the brackets, m/s): suction 1.2 (0.5-1.5); return 3.0 (1.5-4.6); drain 1.5 (1-2);
// pressure to 25 bar 3.0, to 50 bar 4.0, to 100 bar 5.0, to 200 bar 6.0, above 7.0 (2-10).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "checks/machinery/ceiling.hpp"
#include "checks/machinery/evidence.hpp"
#include "compiler/quantities/quantity.hpp"

namespace ferrule {

extern const Rule line_undersized;

namespace {

struct Limit {
  double speed = 0;
  std::string source;
  bool unlimited_zone = false;  // the limit is the highest there is, for no relief says how high the pressure may rise
};

struct Band {
  double up_to;  // Pa, ceiling of the zone
  double speed;  // m/s
};
constexpr Band bands[] = {{25e5, 3}, {50e5, 4}, {100e5, 5}, {200e5, 6}};
constexpr double above_all_bands = 7, suction = 1.2, return_line = 3, drain = 1.5;
constexpr double error_from = 1.5, suction_error_from = 1.25;
// A drilling shorter than ten bores has no time to build up its loss (common practice).
constexpr double short_passage = 10, short_passage_factor = 1.5;

// Next standard inside diameters, mm: nominal sizes of hose and tube (ISO 4397).
constexpr double standard_bores[] = {3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 150, 200};

struct Flow {
  double most = 0;               // m3/s
  const State* state = nullptr;  // in which
  std::size_t unsolved = 0;      // states without numbers
  bool is_bound = false;         // no state was solved: none can send more
};

// Motions of different steps never add up, so a valve that comes late makes no flow of its own (checks page B.0).
std::span<const State> before_late(const States& states) {
  const auto late = std::find_if(states.states.begin(), states.states.end(), [](const State& s) { return s.state_class == StateClass::late; });
  return {states.states.begin(), late};
}

Flow flow_of(const Solved& solved, ElementId pipe) {
  Flow flow;
  for (std::size_t i = 0; i < before_late(solved.states).size(); ++i) {
    const OperatingPoint& point = solved.points[i];
    if (!point.settled) {
      ++flow.unsolved;
      continue;
    }
    const double q = std::abs(point.flow[pipe.index]);
    if (!std::isfinite(q)) ++flow.unsolved;
    else if (q > flow.most) flow.most = q, flow.state = &solved.states.states[i];
  }
  return flow;
}

// What a pump takes in is its geometric flow, not what it delivers.
double geometric(const Element& unit) {
  return unit.value(Parameter::displacement).value_or(0) * unit.value(Parameter::speed).value_or(0);
}

double drawn_through(const Solved& solved, const Element& pipe) {
  const auto sure = [](const Passage& p) { return !p.limiter; };
  const Reached reached = reach(solved.graph, pipe.ends[1], sure);
  double flow = 0;
  for (const Element& unit : solved.circuit.elements)
    if (unit.kind == ElementKind::displacement && unit.has("pump") && reached.contains(unit.ends.front())) flow += geometric(unit);
  return flow;
}

// The vent side of a single-acting cylinder holds air and leakage, not the oil that the piston sweeps.
bool ends_at_a_vent(const Circuit& circuit, const Element& pipe) {
  const auto is_vent = [&](PortId id) {
    const Port& port = circuit.ports[id];
    const Role* role = role_of(circuit, port.part, "single-acting");
    return role && role->ports.size() > 1 && role->ports[1] == port.name;
  };
  return std::any_of(pipe.ends.begin(), pipe.ends.end(), [&](NodeId node) {
    const auto& ports = circuit.nodes[node].ports;
    return std::any_of(ports.begin(), ports.end(), is_vent);
  });
}

bool carries_no_steady_flow(const Circuit& circuit, LineFunction function, const Element& pipe) {
  if (function == LineFunction::drain) return ends_at_a_vent(circuit, pipe);
  return function == LineFunction::pilot || function == LineFunction::mechanical;
}

std::optional<Limit> required(const Circuit& circuit, const Line& line) {
  const std::string& tag = circuit.parts[line.part].tag;
  for (const Requirement& r : circuit.requirements) {
    const bool here = r.address.size() == 2 && r.address[1] == "velocity" && (r.address[0] == tag || r.address[0] == word_of(line.function));
    if (here && r.comparison == "at most" && !r.values.empty()) return Limit{r.values[0].si, "`require` of this circuit"};
  }
  return std::nullopt;
}

// Which limit holds hangs on the pressure that a zone may reach; without a limiter only what breaks the highest one is undersized.
Limit limit_of(LineFunction function, std::optional<double> ceiling) {
  const std::string practice = "common practice";
  if (function == LineFunction::suction) return {suction, practice + ": suction line"};
  if (function == LineFunction::return_) return {return_line, practice + ": return line"};
  if (function == LineFunction::drain) return {drain, practice + ": drain line"};
  if (!ceiling) return {above_all_bands, practice + ": the most that any pressure line is allowed; nothing limits the pressure of this zone", true};
  for (const Band& band : bands)
    if (*ceiling <= band.up_to) return {band.speed, fmt::format("{}: pressure line in a zone up to {:.0f} bar", practice, band.up_to / 1e5)};
  return {above_all_bands, practice + ": pressure line in a zone above 200 bar"};
}

std::string next_standard(double bore) {
  for (const double standard : standard_bores)
    if (standard >= bore * 1000 - 1e-6) return fmt::format("{:.0f} mm", standard);
  return "none in the series";
}

struct Case {
  const Solved& solved;
  const Circuit& circuit;
  const Line& line;
  const Element& pipe;
  double bore, flow;
  const State* state;
  Limit limit;
  double speed() const { return flow / (std::numbers::pi / 4 * bore * bore); }
  const std::string& tag() const { return circuit.parts[line.part].tag; }
};

// Reynolds number v d / nu in the oil that the first reservoir holds.
double reynolds(const Case& c) {
  for (const Part& part : c.circuit.parts)
    if (part.definition && part.definition->role("tank")) return c.speed() * c.bore / oil_of(c.circuit, c.circuit.parts.id_of(part)).kinematic_viscosity;
  return c.speed() * c.bore / Oil{}.kinematic_viscosity;
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

// Where nothing limits the zone, only the lowest band allows for sure.
double surely_allowed(const Limit& limit) { return limit.unlimited_zone ? bands[0].speed : limit.speed; }

void judge(const Case& c, const Flow& flow, const std::vector<std::string>& defaults, Findings& findings) {
  if (c.speed() > c.limit.speed) return report(c, findings);
  if (flow.unsolved)
    return put(c, Outcome::not_proved, fmt::format("{:.1f} m/s in the states that could be solved; {} could not", c.speed(), flow.unsolved), findings);
  if (c.limit.unlimited_zone && c.speed() > bands[0].speed)
    return put(c, Outcome::not_checked, fmt::format("{:.1f} m/s; needs the pressure that its zone can reach, but no set relief valve limits it: "
                                                    "the limit is {:.0f} to {:.0f} m/s by that pressure", c.speed(), bands[0].speed, above_all_bands), findings);
  const std::string speed = fmt::format("{}{:.1f} of {:.1f} m/s", flow.is_bound ? "at most " : "", c.speed(), surely_allowed(c.limit));
  if (defaults.empty()) return put(c, Outcome::pass, speed, findings);
  put(c, Outcome::pass_on_assumption, speed + "; " + joined(defaults, ", "), findings);
}

// By part, so that many lines don't each search all elements.
std::vector<const Element*> pipes_of(const Circuit& circuit) {
  std::vector<const Element*> pipes(circuit.parts.size());
  for (const Element& element : circuit.elements)
    if (element.kind == ElementKind::pipe) pipes[element.part.index] = &element;
  return pipes;
}

std::optional<double> ceiling_of(const std::vector<std::optional<double>>& ceilings, const Element& pipe) {
  const auto a = ceilings[pipe.ends[0].index], b = ceilings[pipe.ends[1].index];
  return a && b ? std::optional(std::max(*a, *b)) : std::nullopt;
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
  auto limit = required(circuit, line);
  if (!limit) limit = limit_of(line.function, ceiling);
  const bool drilling = circuit.parts[line.part].has("length") && *circuit.parts[line.part].si("length") < short_passage * *bore;
  if (drilling) limit->speed *= short_passage_factor;
  const auto with = [&](const Flow& flow) {
    const bool draws = line.function == LineFunction::suction && flow.most > 0;
    const double most = draws ? std::max(flow.most, drawn_through(solved, *pipe)) : flow.most;
    return Case{solved, circuit, line, *pipe, *bore, most, flow.state, *limit};
  };
  // A bound that passes is a proof for all states; only what it leaves open is solved.
  Flow flow{bounds[circuit.elements.id_of(*pipe).index], nullptr, 0, true};
  if (!(with(flow).speed() <= surely_allowed(*limit))) flow = flow_of(solved, circuit.elements.id_of(*pipe));
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
