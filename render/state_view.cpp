#include "render/state_view.hpp"

#include <algorithm>
#include <cmath>

#include "compiler/figures/moment.hpp"

namespace ferrule {
namespace {

std::vector<double> given_at_ports(const working::Book& book, std::size_t state) {
  const Circuit& circuit = book.circuit;
  std::vector<double> given(circuit.ports.size(), 0);
  if (!book.point(state).settled) return given;
  const working::Moment& moment = book.moment(state);
  for (std::uint32_t e = 0; e < circuit.elements.size(); ++e) {
    const Element& element = circuit.elements.rows[e];
    const Part& part = circuit.parts[element.part];
    for (std::size_t k = 0; k < element.ends.size() && k < 3; ++k)
      for (std::uint32_t p = part.first_port; p < part.first_port + part.port_count; ++p) {
        const bool here = element.ends[k] && circuit.ports.rows[p].node == element.ends[k];
        if (here && std::isfinite(moment.given[e][k])) given[p] += moment.given[e][k];
      }
  }
  return given;
}

}  // namespace

StateView view_of(const working::Book& book, std::size_t state) {
  const Circuit& circuit = book.circuit;
  const State& told = book.states[state];
  const StatePaths paths = paths_in(circuit, passages_of(circuit), told);
  const OperatingPoint& point = book.point(state);
  std::vector<double> pressure(circuit.nodes.size(), std::nan(""));
  if (point.settled) pressure = point.pressure;
  return {told.name, told.position, paths.nodes, std::move(pressure), given_at_ports(book, state)};
}

}  // namespace ferrule
