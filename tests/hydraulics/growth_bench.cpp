// How the time for one state and the memory grow with the circuit: `test_hydraulics "[.growth]"` prints figures and judges nothing.
#include <catch2/catch.hpp>

#include <sys/resource.h>

#include <chrono>
#include <cmath>
#include <fmt/format.h>
#include <iostream>

#include "compiler/driver/memory.hpp"
#include "compiler/hydraulics/solve.hpp"
#include "compiler/states/state.hpp"
#include "compiler/text.hpp"
#include "support/generator.hpp"

using namespace ferrule;

namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point begin) { return std::chrono::duration<double>(Clock::now() - begin).count(); }

double mebibytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

struct Growth {
  std::size_t components = 0, states = 0, settled = 0;
  double compile = 0, share = 0, state = 0;  // s
};

// A file may hold 4 MiB: a larger text goes in pieces, each a file that is included.
std::unique_ptr<Compilation> compiled_in_pieces(const std::string& text) {
  constexpr std::size_t piece = 3u << 20;
  tests::Outside files;
  std::string main;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = text.size() - from <= piece ? text.size() : text.rfind('\n', from + piece) + 1;
    const std::string name = fmt::format("piece-{}.fer", files.files.size());
    main += fmt::format("include \"{}\"\n", name);
    files.files[name] = text.substr(from, end - from);
    from = end;
  }
  return compile(files, "main.fer", main);
}

// The first states of a circuit, solved as a report would.
Growth growth_of(int components) {
  Growth growth;
  const std::string text = tests::generated_circuit(components, 7);
  auto begin = Clock::now();
  const auto compilation = compiled_in_pieces(text);
  growth.compile = seconds_since(begin);
  for (const Message& message : compilation->messages)
    if (message.severity == Severity::error) std::cout << message.sentence << '\n';
  growth.components = compilation->circuit.parts.size();
  const States all = states_of(compilation->circuit);
  begin = Clock::now();
  const Solver solver(compilation->circuit);
  growth.share = seconds_since(begin);
  begin = Clock::now();
  for (const State& state : all.states) {
    growth.settled += solver.at(state).settled;
    if (++growth.states == 20 || (growth.states >= 4 && seconds_since(begin) > 5)) break;
  }
  growth.state = seconds_since(begin) / static_cast<double>(growth.states);
  return growth;
}

}  // namespace

TEST_CASE("time for a state and memory, from ten components to a hundred thousand", "[.growth]") {
  take_large_pages();  // as the program does
  Growth before;
  for (const int components : {10, 30, 100, 300, 1000, 3000, 10'000, 57'000}) {
    const Growth now = growth_of(components);
    const double slope = before.components ? std::log(now.state / before.state) / std::log(double(now.components) / double(before.components)) : 0;
    std::cout << fmt::format("{:>7} parts: compiled in {:.4f} s, shared by all states {:.4f} s, {:>9.1f} states/s ({} of {} settled), slope {:.2f}, {:.0f} MiB at most so far\n",
                             now.components, now.compile, now.share, 1 / now.state, now.settled, now.states, slope, mebibytes());
    before = now;
  }
}

// An ordinary circuit: thirty components, ten states, everything after parsing.
TEST_CASE("time for all states of an ordinary circuit", "[.growth]") {
  const auto compilation = tests::compiled(tests::generated_circuit(30, 3));
  double least = 1;
  std::size_t states = 0;
  for (int run = 0; run < 20; ++run) {
    const auto begin = Clock::now();
    const States all = states_of(compilation->circuit);
    const Solver solver(compilation->circuit);
    states = std::min<std::size_t>(all.states.size(), 10);
    for (std::size_t i = 0; i < states; ++i) (void)solver.at(all.states[i]);
    least = std::min(least, seconds_since(begin));
  }
  std::cout << fmt::format("{} parts, {} elements, {} states: {:.2f} ms\n", compilation->circuit.parts.size(), compilation->circuit.elements.size(), states, least * 1e3);
}
