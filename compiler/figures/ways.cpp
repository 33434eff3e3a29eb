#include "compiler/figures/ways.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace ferrule::working {
namespace {

constexpr double least_flow = 1e-9;  // m3/s: less is rounding

struct Hop {
  ElementId element;
  NodeId to;
  double flow = 0;
};

bool stops_here(const Moment& moment, std::uint32_t element) {
  const Element& e = moment.circuit.elements.rows[element];
  return moment.body[element] || is_pump(moment, e) || e.kind == ElementKind::reservoir || e.kind == ElementKind::gas_volume;
}

// The element with the largest flow into (sense +1) or out of (-1) this group, and its far end.
std::optional<Hop> largest(const Moment& moment, std::span<const EndAt> ends, double sense) {
  std::optional<Hop> best;
  for (const EndAt& at : ends) {
    const double flow = sense * moment.given[at.element][at.end];
    if (stops_here(moment, at.element) || !(flow > least_flow) || (best && flow <= best->flow)) continue;
    const Element& element = moment.circuit.elements.rows[at.element];
    double most = 0;
    NodeId far;
    for (std::uint32_t k = 0; k < element.ends.size() && k < 3; ++k)
      if (k != at.end && element.ends[k] && -sense * moment.given[at.element][k] > most)
        most = -sense * moment.given[at.element][k], far = element.ends[k];
    if (far) best = Hop{ElementId{at.element}, far, flow};
  }
  return best;
}

std::string words_of(const Moment& moment, ElementId id) {
  const Element& element = moment.circuit.elements[id];
  const std::string place = place_of(moment.circuit, element.part);
  return element.name.empty() || element.name == "main" || element.kind == ElementKind::pipe ? place : place + " " + element.name;
}

// The name of a port of this group that belongs to a pump, store or reservoir; else any.
std::string name_of_end(const Moment& moment, std::span<const EndAt> ends, NodeId node) {
  for (const EndAt& at : ends)
    if (moment.circuit.elements.rows[at.element].kind == ElementKind::reservoir)
      return moment.circuit.parts[moment.circuit.elements.rows[at.element].part].tag;
  for (const EndAt& at : ends) {
    if (!stops_here(moment, at.element)) continue;
    const Element& element = moment.circuit.elements.rows[at.element];
    const Part& part = moment.circuit.parts[element.part];
    if (element.kind == ElementKind::gas_volume) return part.tag;
    for (std::uint32_t p = part.first_port; p < part.first_port + part.port_count; ++p)
      if (moment.circuit.ports[PortId{p}].node == element.ends[at.end]) return moment.circuit.name_of(PortId{p});
    return part.tag;
  }
  const auto& ports = moment.circuit.nodes[node].ports;
  return ports.empty() ? std::string("a junction") : moment.circuit.name_of(ports.front());
}

// Follows the largest flow upstream (+1) or downstream (-1).
std::optional<Way> follow(const Moment& moment, NodeId node, double sense) {
  Way way;
  std::set<std::uint32_t> seen;
  NodeId here = node;
  const auto is_end = [&](NodeId at) {
    const auto there = moment.ends_at(at);
    return std::any_of(there.begin(), there.end(), [&](const EndAt& e) { return moment.circuit.elements.rows[e.element].kind == ElementKind::reservoir; });
  };
  while (seen.insert(moment.group[here.index]).second && (here == node || !is_end(here))) {
    const auto hop = largest(moment, moment.ends_at(here), sense);
    if (!hop) break;
    way.losses.push_back({words_of(moment, hop->element), sense * (moment.pressure(hop->to) - moment.pressure(here))});
    here = hop->to;
  }
  if (way.losses.empty() || !std::isfinite(moment.pressure(here)) || !std::isfinite(moment.pressure(node))) return std::nullopt;
  (sense > 0 ? way.begins : way.ends) = name_of_end(moment, moment.ends_at(here), here);
  way.from = moment.pressure(sense > 0 ? here : node), way.to = moment.pressure(sense > 0 ? node : here);
  if (sense > 0) std::reverse(way.losses.begin(), way.losses.end());
  return way;
}

}  // namespace

std::optional<Way> way_to(const Moment& moment, NodeId node, std::string ends) {
  auto way = follow(moment, node, 1);
  if (way) way->ends = std::move(ends);
  return way;
}

std::optional<Way> way_from(const Moment& moment, NodeId node, std::string begins) {
  auto way = follow(moment, node, -1);
  if (way) way->begins = std::move(begins);
  return way;
}

std::vector<Way> ways_from(const Moment& moment, ElementId id) {
  const Element& pump = moment.circuit.elements[id];
  const NodeId outlet = outlet_of(moment, id);
  if (!outlet || moment.point.flow[id.index] == 0) return {};
  auto way = follow(moment, outlet, -1);
  if (!way) return {};
  const auto& ports = moment.circuit.nodes[outlet].ports;
  way->begins = moment.circuit.parts[pump.part].tag;
  for (PortId port : ports)
    if (moment.circuit.ports[port].part == pump.part) way->begins = moment.circuit.name_of(port);
  return {*way};
}

}  // namespace ferrule::working
