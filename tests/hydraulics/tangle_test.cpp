// Circuits with every kind of element joined at random: nearly all settle, what does not gives no number, nothing crashes.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <set>

#include "compiler/compile.hpp"
#include "compiler/figures/book.hpp"
#include "support/outside.hpp"
#include "support/tangle.hpp"

using namespace ferrule;

namespace {

struct Tally {
  int circuits = 0, states = 0, settled = 0;
  std::set<std::uint32_t> alternating;  // seeds
  std::set<ElementKind> kinds;
};


void judge(std::uint32_t seed, Tally& tally) {
  static const tests::Outside outside;
  const auto compilation = compile(outside, "tangle.fer", tests::tangle(4 + static_cast<int>(seed % 17), seed));
  const auto is_error = [](const Message& m) { return m.severity == Severity::error; };
  const auto fault = std::find_if(compilation->messages.begin(), compilation->messages.end(), is_error);
  if (fault != compilation->messages.end()) {  // some hang together without the reservoir, and nothing else may be wrong
    INFO("seed " << seed << ": " << fault->sentence);
    CHECK(fault->sentence.starts_with("no reservoir is joined to"));
    return;
  }
  const Circuit& circuit = compilation->circuit;
  for (const Element& element : circuit.elements) tally.kinds.insert(element.kind);
  const States states = states_of(circuit, 6);
  const Points points(circuit, states.states);
  const working::Book book(circuit, states.states, points);
  ++tally.circuits;
  for (std::size_t index = 0; index < states.states.size(); ++index) {
    ++tally.states;
    const OperatingPoint& point = points[index];
    INFO("seed " << seed << ", " << states.states[index].name);
    if (point.settled) {
      ++tally.settled;
      continue;
    }
    CHECK((!point.alternating.empty() || !point.notes.empty()));
    // Where oil would flow beyond any pressure the equations have their solution; it is no state of a machine, and is said to be none.
    if (point.alternating.empty()) CHECK(point.residual < 1e-6);
    else tally.alternating.insert(seed);
    for (const working::Subject& subject : book.subjects())
      for (const std::string_view word : book.words_for(subject.kind)) {
        if (word != "flow" && word != "pressure" && word != "speed") continue;
        CHECK_FALSE(book.result(subject, word, index).result().si.has_value());
      }
  }
}

}  // namespace

// FERRULE_TANGLES sets how many; tests/bench/tangles.sh asks for 10 000.
// What is left alternates: piloted checks that cut off their own pilot, and the like.
TEST_CASE("circuits of all elements joined at random settle, or give no number") {
  const char* asked = std::getenv("FERRULE_TANGLES");
  const std::uint32_t count = asked ? static_cast<std::uint32_t>(std::atoi(asked)) : 1500;
  Tally tally;
  for (std::uint32_t seed = 1; seed <= count; ++seed) judge(seed, tally);
  std::cout << tally.circuits << " circuits, " << tally.states << " states, " << tally.settled << " settled; " << tally.alternating.size() << " circuits alternate\n";
  CHECK(static_cast<double>(tally.alternating.size()) <= 0.001 * tally.circuits);
  CHECK(tally.circuits >= 0.99 * count);
  CHECK(tally.kinds.size() >= 16);
}
