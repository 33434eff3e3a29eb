// Bore by continuity at the speed that the line's function allows, d = sqrt(4 q / (pi v)); wall of a tube by DIN 2413 for steady
// pressure (E235: 235 MPa, safety 1.5, a tenth of the wall for tolerance), of a hose by its working pressure.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "checks/machinery/ceiling.hpp"
#include "checks/machinery/line_speeds.hpp"
#include "checks/sizing/choice.hpp"

namespace ferrule::sizing {
namespace {

namespace d = dimension;

constexpr double least_flow = 1e-6;  // m3/s: what leaks only is led by any line

// A row of a series as a pipe.
struct Pipe {
  const std::vector<double>* row = nullptr;
  double bore = 0, outside = 0, wall = 0, rated = 0;  // m, Pa; rated 0 where the series says nothing
};

// The first series whose columns are facts of this kind of line: tube by outside and wall, hose by its nominal size.
const Series& series_for(const Definition& definition) {
  for (const Series& one : all_series())
    if (std::all_of(one.columns.begin(), one.columns.end(), [&](const Series::Column& c) { return definition.fact(c.fact); })) return one;
  return series("drilling");
}

Pipe pipe_of(const Series& sizes, const std::vector<double>& row) {
  Pipe pipe{&row, 0, 0, 0, 0};
  for (std::size_t i = 0; i < row.size(); ++i) {
    const double si = sizes.si(row, i);
    const std::string& fact = sizes.columns[i].fact;
    if (fact == "outside") pipe.outside = si;
    else if (fact == "wall") pipe.wall = si;
    else if (fact == "rated") pipe.rated = si;
    else pipe.bore = sizes.columns[i].unit.empty() ? si / 1e3 : si;  // a nominal size is taken as the bore in millimetres (ISO 4397)
  }
  if (pipe.outside > 0) pipe.bore = pipe.outside - 2 * pipe.wall, pipe.rated = tube_pressure(pipe.outside, pipe.wall);
  return pipe;
}

// The narrowest that is wide enough and stands the pressure; of those the lightest.
Pipe narrowest(const Series& sizes, double bore, double pressure) {
  Pipe best;
  for (const auto& row : sizes.rows) {
    const Pipe pipe = pipe_of(sizes, row);
    if (pipe.bore < bore * (1 - 1e-6) || (pipe.rated > 0 && pipe.rated < pressure)) continue;
    if (!best.row || pipe.bore < best.bore || (pipe.bore == best.bore && pipe.rated < best.rated)) best = pipe;
  }
  return best;
}

std::vector<Written> facts_of(const Series& sizes, const Part& part, const Pipe& pipe) {
  std::vector<Written> facts;
  for (std::size_t i = 0; i < sizes.columns.size(); ++i)
    if (sizes.columns[i].fact != "rated") facts.emplace_back(sizes.columns[i].fact, sizes.written(*pipe.row, i));
  if (part.has("rated") && pipe.rated > 0) facts.emplace_back("rated", fmt::format("{:.0f} bar", std::floor(pipe.rated / 5e5) * 5));
  return facts;
}

std::vector<Written> facts_now(const Series& sizes, const Part& part) {
  std::vector<Written> facts;
  for (const Series::Column& column : sizes.columns)
    if (const auto si = part.si(column.fact); si && column.fact != "rated")
      facts.emplace_back(column.fact, column.unit.empty() ? fmt::format("{:g}", *si) : fmt::format("{:g} {}", *si / column.si, column.unit));
  if (const auto rated = part.si("rated")) facts.emplace_back("rated", fmt::format("{:.0f} bar", *rated / 1e5));
  return facts;
}

Proposal line_size(const Basis& basis, const Line& line, const Element& pipe, std::optional<double> ceiling) {
  const Circuit& circuit = basis.circuit();
  const Part& part = circuit.parts[line.part];
  const LineFlow flow = greatest_flow(basis.solved, circuit.elements.id_of(pipe));
  Working working(fmt::format("{} ({})", part.tag, word_of(line.function)));
  if (!(flow.most > least_flow)) return nothing_for(working, "no state sends oil through it");
  const SpeedLimit limit = speed_limit(circuit, line, pipe.value(Parameter::bore).value_or(0), ceiling);
  const double most = with_geometric(basis.solved, line, pipe, flow.most);
  working.given("q", "greatest flow", {most, d::flow}, most > flow.most ? "what its pumps displace" : "balance of the circuit, in " + flow.state->name)
      .given("v_w", "speed allowed", {limit.lowest, d::speed}, limit.source)
      .law("d_w", "bore needed", d::length, "sqrt(4 x q / (pi x v_w))", "continuity");
  if (ceiling && *ceiling > 0) working.given("p", "pressure that may stand in it", {*ceiling, d::pressure}, "settings of the valves that limit it");
  const Series& sizes = series_for(*part.definition);
  const Pipe chosen = narrowest(sizes, working["d_w"], ceiling.value_or(0));
  if (!chosen.row) return nothing_for(working, "the series has none so wide for this pressure");
  working.given("d", "bore chosen", {chosen.bore, d::length}, "the next of the series").law("v", "speed in it", d::speed, "4 x q / (pi x d^2)", "continuity");
  if (chosen.rated > 0) working.given("p_z", "pressure it stands", {chosen.rated, d::pressure}, chosen.outside > 0 ? "DIN 2413, E235, safety 1.5" : "series");
  Proposal proposal;
  proposal.working = working.worked(), proposal.source = sizes.source;
  choose(basis, part, facts_now(sizes, part), facts_of(sizes, part, chosen), proposal);
  return proposal;
}

}  // namespace

double tube_pressure(double outside, double wall) {
  constexpr double strength = 235e6, safety = 1.5;
  const double left = wall * (outside < 0.0055 ? 0.8 : outside < 0.009 ? 0.85 : 0.9);
  const double thick = outside / (outside - 2 * wall) > 1.35 ? outside + left : outside;
  return 2 * strength * left / (safety * thick);
}

std::vector<Proposal> line_sizes(const Basis& basis) {
  std::vector<Proposal> proposals;
  const Circuit& circuit = basis.circuit();
  const auto ceilings = ceilings_of(basis.solved);
  const auto pipes = pipes_of(circuit);
  for (const Line& line : circuit.lines) {
    const Element* pipe = pipes[line.part.index];
    if (!pipe || carries_no_steady_flow(circuit, line.function, *pipe) || !is_stated_in(basis.compilation, circuit.parts[line.part], basis.path)) continue;
    proposals.push_back(line_size(basis, line, *pipe, ceiling_of(ceilings, *pipe)));
  }
  return proposals;
}

}  // namespace ferrule::sizing
