// In every state of every circuit: no oil comes or goes at a point, and power in = work + heat. No loss is negative.
#include <catch2/catch.hpp>

#include <cmath>

#include "figures/book_of.hpp"

using namespace ferrule;
using tests::Open;

namespace {

bool keeps_its_pressure(const working::Moment& moment, std::uint32_t group) {
  for (const Element& e : moment.circuit.elements)
    if (e.kind == ElementKind::reservoir || e.kind == ElementKind::atmosphere || e.kind == ElementKind::gas_volume)
      for (NodeId end : e.ends)
        if (end && moment.group[end.index] == group) return true;
  return false;
}

// Largest sum of flows at a point, over the largest flow of the circuit in any state.
double imbalance(const working::Moment& moment, double largest) {
  std::vector<double> sum(moment.circuit.nodes.size(), 0);
  for (std::uint32_t i = 0; i < moment.circuit.elements.size(); ++i)
    for (std::size_t end = 0; end < moment.circuit.elements.rows[i].ends.size() && end < 3; ++end) {
      const NodeId node = moment.circuit.elements.rows[i].ends[end];
      if (!node || moment.circuit.elements.rows[i].kind == ElementKind::passage || moment.circuit.elements.rows[i].kind == ElementKind::reservoir) continue;
      sum[moment.group[node.index]] += moment.given[i][end];
    }
  double worst = 0;
  for (std::uint32_t group = 0; group < sum.size(); ++group)
    if (!keeps_its_pressure(moment, group)) worst = std::max(worst, std::fabs(sum[group]));
  return worst / largest;
}

}  // namespace

double largest_flow(const Open& open) {
  double largest = 0;
  for (std::size_t state : open.book->told())
    for (const auto& ends : open.book->moment(state).given)
      for (double flow : ends)
        if (std::isfinite(flow)) largest = std::max(largest, std::fabs(flow));
  return largest;
}

// All power that oil hands on in a state.
double turnover(const working::Moment& moment) {
  double sum = moment.shaft;
  for (std::uint32_t i = 0; i < moment.heat.size(); ++i) sum += std::fabs(moment.taken(ElementId{i}));
  return sum;
}

double largest_turnover(const Open& open) {
  double largest = 0;
  for (std::size_t state : open.book->told())
    if (const double one = turnover(open.book->moment(state)); std::isfinite(one)) largest = std::max(largest, one);
  return largest;
}

TEST_CASE("oil and power are kept in every state of every sample and machine") {
  int states = 0;
  for (const auto& path : tests::all_circuits()) {
    const Open open(tests::contents_of(path));
    const double flow = largest_flow(open), power = largest_turnover(open);
    for (std::size_t state : open.book->told()) {
      const working::Moment& m = open.book->moment(state);
      INFO(path.filename() << " " << open.book->states[state].name);
      CHECK(m.point.settled);
      REQUIRE(std::isfinite(m.heat_of_all()));
      CHECK(imbalance(m, flow) < 1e-9);
      const double in = m.shaft + m.stored, out = m.work + m.heat_of_all() + m.lifted;
      CHECK(std::fabs(in - out) <= 1e-9 * power);
      for (std::uint32_t i = 0; i < m.heat.size(); ++i) {
        INFO(open.compilation->circuit.parts[open.compilation->circuit.elements.rows[i].part].tag);
        // A pump that delivers nothing still moves its leakage to the case, which constant efficiencies leave out.
        if (working::is_pump(m, open.compilation->circuit.elements.rows[i])) continue;
        CHECK(m.heat[i] > -1e-6 * std::max(1.0, m.shaft));  // no element cools the oil by passing it (second law)
      }
      ++states;
    }
  }
  CHECK(states > 60);
}

// Coulomb friction takes F v; a body whose friction is stated loses just that.
TEST_CASE("friction of a cylinder heats by force times speed") {
  const Open open(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/samples/bale-squeezer.fer"));
  for (const char* step : {"squeeze", "open"}) CHECK(open.si("1A1.heat", step) == Approx(500 * std::fabs(open.si("1A1.speed", step))).epsilon(1e-3));
}
