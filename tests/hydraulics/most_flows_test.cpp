// A bound that is proved without solving must hold in every state that is solved: samples, machines, generated circuits.
// The solver shares nothing with the proof but the laws of the elements.
#include <catch2/catch.hpp>

#include "checks/machinery/rule.hpp"
#include "support/files.hpp"
#include "support/generator.hpp"
#include "support/outside.hpp"

namespace ferrule {
namespace {

struct Count {
  std::size_t pipes = 0, bounded = 0;
};

// Late states are transient: motions of different steps never add up (checks page B.0).
void compare(const std::string& name, const std::string& text, Count& count) {
  static const tests::Outside desk;
  const auto compilation = compile(desk, name, text);
  const Circuit& circuit = compilation->circuit;
  const Solved facts = solved(circuit);
  std::vector<State> states;
  for (const State& state : facts.states.states)
    if (state.state_class != StateClass::late) states.push_back(state);
  const std::vector<double> most = facts.points.solver().most_flows(facts.graph, states);
  std::vector<bool> seen(circuit.elements.size());
  for (const State& state : states) {
    const OperatingPoint point = facts.points.solver().at(state);
    for (std::uint32_t i = 0; point.settled && i < circuit.elements.size(); ++i) {
      const Element& element = circuit.elements.rows[i];
      if (element.kind != ElementKind::pipe || !std::isfinite(point.flow[i])) continue;
      count.pipes += !seen[i];
      count.bounded += !seen[i] && std::isfinite(most[i]);
      seen[i] = true;
      INFO(name << " in " << state.name << ": " << circuit.parts[element.part].tag);
      // The solver gives trapped pockets a leak of 1e-11 L/min per bar.
      CHECK(std::fabs(point.flow[i]) <= most[i] * (1 + 1e-6) + 1e-12);
    }
  }
}

}  // namespace

TEST_CASE("No solved state sends more through a pipe than was proved without solving") {
  Count count;
  for (const std::string folder : {"samples", "tests/briefs"})
    for (const std::string& path : tests::files_below(folder, ".fer")) compare(path, tests::project_text(path), count);
  Count generated;
  for (std::uint32_t seed = 1; seed <= 60; ++seed) compare("generated " + std::to_string(seed), tests::generated_circuit(12 + seed, seed), generated);
  // The proof would be idle if it proved nothing: of the generated pipes nearly all are bounded.
  CHECK(count.bounded * 4 > count.pipes);
  CHECK(generated.bounded * 10 > generated.pipes * 9);
  CAPTURE(count.bounded, count.pipes, generated.bounded, generated.pipes);
  SUCCEED();
}

}  // namespace ferrule
