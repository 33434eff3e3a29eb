// Proofs without listing states, against listing them all, on small circuits made by a seed.
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "compiler/paths/proof.hpp"

using namespace ferrule;

namespace {

// Nodes 0 .. n-1; 0 is the start, the last one the reservoir. Valves of two or three positions, and other elements.
struct Made {
  Circuit circuit;
  PassageGraph graph;
  std::uint32_t nodes = 0;
};

Element between(ElementKind kind, PartId part, std::uint32_t a, std::uint32_t b, std::int16_t position = -1) {
  Element element;
  element.kind = kind;
  element.part = part;
  element.ends = {NodeId{a}, NodeId{b}};
  element.position = position;
  return element;
}

Made made_by(unsigned seed) {
  std::mt19937 random(seed);
  const auto below = [&](unsigned count) { return static_cast<std::uint32_t>(random() % count); };
  Made made;
  made.nodes = 5 + below(4);
  for (std::uint32_t node = 0; node < made.nodes; ++node) made.circuit.nodes.add({});
  const auto add_part = [&](std::string tag) {
    Part part;
    part.tag = std::move(tag);
    return made.circuit.parts.add(std::move(part));
  };
  const std::uint32_t valves = 2 + below(4);
  for (std::uint32_t valve = 0; valve < valves; ++valve) {
    const PartId part = add_part("V" + std::to_string(valve));
    const std::uint32_t positions = 2 + below(2);
    for (std::uint32_t position = 0; position < positions; ++position) {
      made.circuit.parts[part].positions.push_back({std::to_string(position), {}, {}, {}, false});
      for (std::uint32_t path = below(3); path > 0; --path)
        made.circuit.elements.add(between(ElementKind::passage, part, below(made.nodes), below(made.nodes),
                                          static_cast<std::int16_t>(position)));
    }
  }
  for (std::uint32_t other = 2 + below(3); other > 0; --other) {
    const PartId part = add_part("E" + std::to_string(other));
    Element element = between(below(2) ? ElementKind::one_way : ElementKind::restriction, part, below(made.nodes), below(made.nodes));
    if (element.kind == ElementKind::restriction && below(2)) element.flags.push_back("adjustable");
    made.circuit.elements.add(std::move(element));
  }
  Element tank = between(ElementKind::reservoir, add_part("T"), 0, 0);
  tank.ends = {NodeId{made.nodes - 1}};
  made.circuit.elements.add(std::move(tank));
  made.graph = passages_of(made.circuit);
  return made;
}

// Calls `visit` with every vector of positions.
template <class Visit>
void each_vector(const Circuit& circuit, Visit visit) {
  Positions positions(circuit.parts.size(), std::int16_t{-1});
  for (std::size_t part = 0; part < positions.size(); ++part)
    if (!circuit.parts.rows[part].positions.empty()) positions[part] = 0;
  while (true) {
    visit(positions);
    std::size_t part = 0;
    for (; part < positions.size(); ++part) {
      if (positions[part] < 0) continue;
      if (++positions[part] < static_cast<std::int16_t>(circuit.parts.rows[part].positions.size())) break;
      positions[part] = 0;
    }
    if (part == positions.size()) return;
  }
}

bool reaches_tank(const Made& made, const Positions& positions) {
  const Reached reached = reach(made.graph, NodeId{0}, [&](const Passage& passage) {
    return !made.graph.tank[passage.from.index] && is_sure_in(passage, made.circuit, positions);
  });
  return reached.contains(NodeId{made.nodes - 1});
}

}  // namespace

TEST_CASE("a proof over all states agrees with listing them") {
  std::size_t proved = 0, failed = 0;
  for (unsigned seed = 0; seed < 400; ++seed) {
    const Made made = made_by(seed);
    const NodeId tank{made.nodes - 1};
    const Proof proof = prove_for_all(made.circuit, made.graph, NodeId{0}, [&](const Reached& r) { return r.contains(tank); });
    bool all = true;
    each_vector(made.circuit, [&](const Positions& positions) { all = all && reaches_tank(made, positions); });
    INFO("seed " << seed);
    REQUIRE(proof.verdict != Proof::Verdict::not_proved);
    const bool holds = proof.verdict != Proof::Verdict::fails;
    REQUIRE(holds == all);
    ++(holds ? proved : failed);
    if (holds) continue;
    // Whatever the other valves do, the witness fails.
    each_vector(made.circuit, [&](const Positions& positions) {
      const bool fits = std::all_of(proof.witness.begin(), proof.witness.end(),
                                    [&](const auto& one) { return positions[one.first.index] == one.second; });
      if (fits) REQUIRE_FALSE(reaches_tank(made, positions));
    });
  }
  CHECK(proved > 20);
  CHECK(failed > 20);
}

TEST_CASE("a possible way is found exactly where some state opens one") {
  std::size_t found = 0, none = 0;
  for (unsigned seed = 0; seed < 400; ++seed) {
    const Made made = made_by(seed);
    const NodeId goal{1};
    const std::vector<bool> relieved = surely_relieved(made.circuit, made.graph);
    const PossibleWay way = possible_way(made.circuit, made.graph, NodeId{0}, [&](NodeId node) { return node == goal; });
    bool some = false;
    each_vector(made.circuit, [&](const Positions& positions) {
      const Reached reached = reach(made.graph, NodeId{0}, [&](const Passage& passage) {
        const PartId part = made.circuit.elements[passage.element].part;
        return !relieved[passage.from.index] && (passage.position < 0 || positions[part.index] == passage.position);
      });
      some = some || reached.contains(goal);
    });
    INFO("seed " << seed);
    REQUIRE(way.complete);
    REQUIRE(way.way.has_value() == some);
    ++(some ? found : none);
    if (!some || way.way->passages.empty()) continue;
    CHECK(made.graph.passages[way.way->passages.back()].to == goal);
    for (std::uint32_t passage : way.way->passages) CHECK_FALSE(relieved[made.graph.passages[passage].from.index]);
  }
  CHECK(found > 20);
  CHECK(none > 20);
}

namespace {

State state_at(const Circuit& circuit, const Positions& positions) {
  State state;
  state.position = positions;
  state.running.assign(circuit.parts.size(), false);
  return state;
}

// By hand and element by element, without the graph of passages: whatever stands open is walked until nothing is added.
std::vector<bool> walked(const Made& made, const Positions& positions) {
  std::vector<bool> wet(made.nodes);
  wet[0] = true;
  for (std::uint32_t round = 0; round < made.nodes; ++round)
    for (const Element& element : made.circuit.elements) {
      if (element.kind == ElementKind::reservoir) continue;
      if (element.position >= 0 && positions[element.part.index] != element.position) continue;
      const NodeId a = element.ends[0], b = element.ends[1];
      if (wet[a.index]) wet[b.index] = true;
      if (wet[b.index] && element.kind != ElementKind::one_way) wet[a.index] = true;
    }
  return wet;
}

}  // namespace

TEST_CASE("what conducts in a state is what its positions leave open") {
  std::size_t states = 0, wet_nodes = 0;
  for (unsigned seed = 0; seed < 400; ++seed) {
    const Made made = made_by(seed);
    each_vector(made.circuit, [&](const Positions& positions) {
      const std::vector<Conduction> conduction = conduction_in(made.circuit, made.graph, state_at(made.circuit, positions));
      const Reached reached = reach(made.graph, NodeId{0}, [&](const Passage& p) { return conduction[&p - made.graph.passages.data()] == Conduction::open; });
      const std::vector<bool> expected = walked(made, positions);
      INFO("seed " << seed);
      for (std::uint32_t node = 0; node < made.nodes; ++node) REQUIRE(reached.contains(NodeId{node}) == expected[node]);
      ++states, wet_nodes += static_cast<std::size_t>(std::count(expected.begin(), expected.end(), true));
    });
  }
  CHECK(states > 5000);
  CHECK(wet_nodes > 2 * states);
}

TEST_CASE("a sure way is open in every state") {
  std::size_t sure_nodes = 0;
  for (unsigned seed = 0; seed < 400; ++seed) {
    const Made made = made_by(seed);
    const Reached sure = reach(made.graph, NodeId{0}, [&](const Passage& p) { return is_sure(made.circuit, made.graph, p); });
    each_vector(made.circuit, [&](const Positions& positions) {
      const std::vector<bool> expected = walked(made, positions);
      INFO("seed " << seed);
      for (std::uint32_t node = 1; node < made.nodes; ++node)
        if (sure.contains(NodeId{node})) REQUIRE(expected[node]);
    });
    for (std::uint32_t node = 1; node < made.nodes; ++node) sure_nodes += sure.contains(NodeId{node});
  }
  CHECK(sure_nodes > 100);
}

TEST_CASE("a way that needs one valve in two positions is none") {
  Circuit circuit;
  for (int node = 0; node < 3; ++node) circuit.nodes.add({});
  Part valve;
  valve.tag = "V1";
  valve.positions.resize(2);
  const PartId part = circuit.parts.add(std::move(valve));
  circuit.elements.add(between(ElementKind::passage, part, 0, 1, 0));  // P to A in a
  circuit.elements.add(between(ElementKind::passage, part, 1, 2, 1));  // A to T in b
  const PassageGraph graph = passages_of(circuit);
  CHECK_FALSE(possible_way(circuit, graph, NodeId{0}, [](NodeId node) { return node.index == 2; }).way);
  CHECK(possible_way(circuit, graph, NodeId{0}, [](NodeId node) { return node.index == 1; }).way);
}

TEST_CASE("a cut that is too large to list is named, not guessed") {
  Circuit circuit;
  for (int node = 0; node < 12; ++node) circuit.nodes.add({});
  for (std::uint32_t valve = 0; valve < 10; ++valve) {
    Part part;
    part.tag = "V" + std::to_string(valve);
    part.positions.resize(3);
    const PartId id = circuit.parts.add(std::move(part));
    for (std::int16_t position = 0; position < 3; ++position) circuit.elements.add(between(ElementKind::passage, id, 0, valve + 1, position));
  }
  const PassageGraph graph = passages_of(circuit);
  // Node 11 is reached by none, but to fail the proof needs all ten valves: the first vector already does.
  CHECK(prove_for_all(circuit, graph, NodeId{0}, [](const Reached& r) { return r.contains(NodeId{11}); }).verdict == Proof::Verdict::fails);
  // Ten nodes are all reached in every one of 3^10 vectors.
  const auto all = [](const Reached& reached) {
    for (std::uint32_t node = 1; node <= 10; ++node)
      if (!reached.contains(NodeId{node})) return false;
    return true;
  };
  const Proof proof = prove_for_all(circuit, graph, NodeId{0}, all);
  CHECK(proof.verdict == Proof::Verdict::not_proved);
  CHECK(proof.cut.size() == 10);
  CHECK(proof.vectors <= 729);
}
