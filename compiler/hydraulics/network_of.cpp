#include "compiler/hydraulics/network_of.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "compiler/hydraulics/laws_of.hpp"
#include "compiler/hydraulics/motions.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {
namespace {

// Nodes joined without loss become one point.
class Points {
 public:
  explicit Points(std::size_t nodes) : parent_(nodes) { std::iota(parent_.begin(), parent_.end(), 0u); }
  std::uint32_t root(std::uint32_t node) {
    while (parent_[node] != node) node = parent_[node] = parent_[parent_[node]];
    return node;
  }
  void join(NodeId a, NodeId b) { parent_[std::max(root(a.index), root(b.index))] = std::min(root(a.index), root(b.index)); }

 private:
  std::vector<std::uint32_t> parent_;
};

class Assembly {
 public:
  Assembly(const Shared& shared, Reading& step, const std::vector<ElementId>& tripped)
      : shared_(shared), step_(step), circuit_(step.circuit), tripped_(tripped) {}
  Model build();

 private:
  bool passes(const Element& element) const;
  bool is_shut(const Element& element) const;
  bool is_tripped(const Element& element) const;
  void merge_points();
  void fix_pressures();
  void add(const Element& element);
  void add(const Prepared& prepared, std::uint32_t element);
  void add_body(const MovingBody& body);
  void place(const std::vector<NodeId>& nodes);

  const Shared& shared_;
  Reading& step_;
  const Circuit& circuit_;
  const std::vector<ElementId>& tripped_;
  Model model_;
  std::vector<std::uint32_t> points_;  // scratch: of the branch at hand
};

bool Assembly::is_shut(const Element& element) const {
  if (element.flags.empty()) return false;
  if (step_.commanded_open(element)) return false;
  if (element.has("shut")) return true;
  return element.has("shut-off") && step_.commanded_shut(element);
}

bool Assembly::is_tripped(const Element& element) const {
  return !tripped_.empty() && std::find(tripped_.begin(), tripped_.end(), circuit_.elements.id_of(element)) != tripped_.end();
}

bool Assembly::passes(const Element& element) const { return step_.in_force(element) && !is_shut(element) && !is_tripped(element); }

void Assembly::merge_points() {
  Points points(circuit_.nodes.size());
  for (const Element& element : circuit_.elements) {
    if (element.kind != ElementKind::passage && element.kind != ElementKind::reservoir) continue;
    if (element.ends.empty() || !element.ends.front() || !passes(element)) continue;
    for (NodeId end : element.ends)
      if (end) points.join(element.ends.front(), end);
  }
  std::vector<std::uint32_t> number(circuit_.nodes.size(), no_branch);
  std::uint32_t count = 0;
  model_.point_of.resize(circuit_.nodes.size());
  for (std::uint32_t node = 0; node < circuit_.nodes.size(); ++node) {
    const std::uint32_t root = points.root(node);
    if (number[root] == no_branch) number[root] = count++;
    model_.point_of[node] = number[root];
  }
  model_.network.fixed.assign(count, std::numeric_limits<double>::quiet_NaN());
}

// Reservoir, atmosphere, and a gas volume whose pressure is known, hold their point whatever flows.
void Assembly::fix_pressures() {
  auto& fixed = model_.network.fixed;
  for (const Element& element : circuit_.elements) {
    std::optional<double> pressure;
    if (element.kind == ElementKind::reservoir) pressure = step_.value(element, Parameter::setting).value_or(0);
    if (element.kind == ElementKind::atmosphere) pressure = 0;
    if (element.kind == ElementKind::gas_volume) pressure = step_.gas_pressure(element);
    if (!pressure || !passes(element)) continue;
    for (NodeId end : element.ends)
      if (end && std::isnan(fixed[model_.point_of[end.index]])) fixed[model_.point_of[end.index]] = *pressure / bar;
  }
}

void Assembly::place(const std::vector<NodeId>& nodes) {
  points_.clear();
  for (NodeId node : nodes) points_.push_back(model_.point_of[node.index]);
}

void Assembly::add(const Prepared& prepared, std::uint32_t element) {
  place(prepared.nodes);
  model_.branch_of[element] = model_.network.add(&*prepared.law, points_, prepared.own, prepared.gives);
}

void Assembly::add(const Element& element) {
  const std::uint32_t index = circuit_.elements.id_of(element).index;
  const bool is_displacement = element.kind == ElementKind::displacement;
  if (!step_.commands(element.part)) {
    const Prepared& prepared = shared_.elements[index];
    if (!prepared.law || !passes(element) || (is_displacement && !step_.running(element.part))) return;
    add(prepared, index);
    model_.network.branches.back().lasting = true;
    return;
  }
  if (!passes(element) || (is_displacement && !step_.running(element.part))) return;
  Prepared commanded = prepared(step_, element, shared_.scale_flow);
  if (!commanded.law) return;
  model_.own_laws.push_back(std::move(*commanded.law));
  place(commanded.nodes);
  model_.branch_of[index] = model_.network.add(&model_.own_laws.back(), points_, commanded.own, commanded.gives);
}

void Assembly::add_body(const MovingBody& body) {
  model_.body_branch.push_back(no_branch);
  auto law = motion_of(step_.state, body);
  if (!law) return;
  model_.own_laws.push_back(std::move(*law));
  place(body.chambers);
  model_.body_branch.back() = model_.network.add(&model_.own_laws.back(), points_, 2, body.gives);
  for (ElementId id : body.elements) model_.branch_of[id.index] = model_.body_branch.back();
}

Model Assembly::build() {
  merge_points();
  fix_pressures();
  model_.branch_of.assign(circuit_.elements.size(), no_branch);
  for (const Element& element : circuit_.elements) add(element);
  for (const MovingBody& body : shared_.bodies) add_body(body);
  return std::move(model_);
}

const State& no_step() {
  static const State state;
  return state;
}

}  // namespace

Shared::Shared(const Circuit& circuit) : reading(circuit, no_step()), scale_flow(pump_flow(reading)), bodies(bodies_of(reading)) {
  elements.reserve(circuit.elements.size());
  for (const Element& element : circuit.elements) elements.push_back(prepared(reading, element, scale_flow));
}

Model network_of(const Shared& shared, Reading& step, const std::vector<ElementId>& tripped) {
  return Assembly(shared, step, tripped).build();
}

}  // namespace ferrule::hydraulics
