// The same equations by a general solver of the GNU Scientific Library (Debian: libgsl-dev): agreement to 1e-6.
#include <catch2/catch.hpp>

#include <chrono>
#include <iostream>

#include "compiler/compile.hpp"
#include "compiler/hydraulics/network_of.hpp"
#include "compiler/hydraulics/settle.hpp"
#include "compiler/states/state.hpp"
#include "outside/general_solver.hpp"
#include "support/generator.hpp"
#include "support/outside.hpp"

using namespace ferrule;
using namespace ferrule::hydraulics;

namespace {

std::unique_ptr<Compilation> generated(int components, std::uint32_t seed) {
  static const tests::Outside library;
  return compile(library, "generated.fer", tests::generated_circuit(components, seed));
}

// Pressures that nothing but the numerical leak decides are nobody's result.
std::vector<bool> decided(const Network& network, const Solution& ours, const outside::Found& theirs) {
  std::vector<bool> touched(network.points(), false);
  for (const Branch& branch : network.branches)
    for (std::uint32_t t = 0; t < branch.terminals; ++t)
      if (std::fabs(network.given(branch, t, ours.local)) > 1e-6 || std::fabs(network.given(branch, t, theirs.local)) > 1e-6)
        touched[network.terminals[branch.first_terminal + t]] = true;
  return touched;
}

// The largest disagreement, relative to the larger of 1 and the value.
double disagreement(const Network& network, const Solution& ours, const outside::Found& theirs) {
  double most = 0;
  const auto compare = [&](double a, double b) { most = std::max(most, std::fabs(a - b) / std::max(1.0, std::fabs(b))); };
  const std::vector<bool> flows = decided(network, ours, theirs);
  for (std::uint32_t point = 0; point < network.points(); ++point)
    if (flows[point]) compare(ours.pressure[point], theirs.pressure[point]);
  for (const Branch& branch : network.branches)
    for (std::uint32_t t = 0; t < branch.terminals; ++t) compare(network.given(branch, t, ours.local), network.given(branch, t, theirs.local));
  return most;
}

}  // namespace

TEST_CASE("200 generated circuits: pressures and flows are those of the general solver") {
  int states = 0, converged = 0;
  for (std::uint32_t seed = 1; seed <= 200; ++seed) {
    const auto compilation = generated(6 + static_cast<int>(seed % 20), seed);
    const Circuit& circuit = compilation->circuit;
    const Shared shared(circuit);
    const States all = states_of(circuit);
    for (std::size_t index = 0; index < std::min<std::size_t>(all.states.size(), 3); ++index) {
      Reading step(circuit, all.states[index]);
      const Model model = network_of(shared, step, {});
      Memory memory;
      const Solution ours = settle(model.network, memory);
      const outside::Found theirs = outside::solved_by_gsl(model.network);
      ++states;
      if (!theirs.converged) continue;  // a general solver may fail; it then says nothing
      ++converged;
      INFO("seed " << seed << ", " << all.states[index].name << ", " << theirs.unknowns << " unknowns");
      CHECK(ours.settled);
      CHECK(disagreement(model.network, ours, theirs) < 1e-6);
    }
  }
  INFO(converged << " of " << states << " states converged there");
  CHECK(converged >= 0.98 * states);
}

TEST_CASE("how much longer the general solver takes", "[.bench]") {
  using Clock = std::chrono::steady_clock;
  for (const int components : {30, 100, 200}) {
    const auto compilation = generated(components, 7);
    const Shared shared(compilation->circuit);
    const States all = states_of(compilation->circuit);
    Reading step(compilation->circuit, all.states[1]);
    const Model model = network_of(shared, step, {});
    const auto begin = Clock::now();
    Memory memory;
    const Solution ours = settle(model.network, memory);
    const auto between = Clock::now();
    const outside::Found theirs = outside::solved_by_gsl(model.network);
    const auto end = Clock::now();
    const double ratio = std::chrono::duration<double>(end - between) / std::chrono::duration<double>(between - begin);
    std::cout << theirs.unknowns << " unknowns: settled " << ours.settled << ", general solver converged " << theirs.converged << ", takes "
              << ratio << " times as long\n";
  }
}
