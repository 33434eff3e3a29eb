#include "compiler/hydraulics/network_of.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "compiler/hydraulics/laws_of.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double least_friction = 1e-3;  // bar: keeps "moves out" and "moves in" apart (numerical)
constexpr double flow_in_out[] = {-1, 1};

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
  Assembly(Reading& reading, const std::vector<ElementId>& tripped) : reading_(reading), circuit_(reading.circuit), tripped_(tripped) {}
  Model build();

 private:
  bool passes(const Element& element) const;
  bool is_shut(const Element& element) const;
  void merge_points();
  void fix_pressures();
  void add(const Element& element);
  void add_two_way(const Element& element, AnyLaw law) { add(element, std::move(law), points_of(element), 1, flow_in_out); }
  void add(const Element& element, AnyLaw law, const std::vector<std::uint32_t>& points, std::uint32_t own, std::span<const double> gives);
  void add_sensing(const Element& element, PressurePath law);
  void add_piloted(const Element& element, PilotedOneWay law);
  void add_regulated(const Element& element);
  void add_pump(const Element& element);
  void add_body(MovingBody& body);
  std::vector<std::uint32_t> points_of(const Element& element) const;
  std::uint32_t point(NodeId node) const { return model_.point_of[node.index]; }

  Reading& reading_;
  const Circuit& circuit_;
  const std::vector<ElementId>& tripped_;
  Model model_;
  double scale_flow_ = 20;
};

bool Assembly::is_shut(const Element& element) const {
  if (reading_.commanded_open(element)) return false;
  if (element.has("shut")) return true;
  return element.has("shut-off") && reading_.commanded_shut(element);
}

bool Assembly::passes(const Element& element) const { return reading_.in_force(element) && !is_shut(element); }

void Assembly::merge_points() {
  Points points(circuit_.nodes.size());
  for (const Element& element : circuit_.elements) {
    if (element.kind != ElementKind::passage && element.kind != ElementKind::reservoir) continue;
    if (!passes(element)) continue;
    for (NodeId end : element.ends)
      if (end && element.ends.front()) points.join(element.ends.front(), end);
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
    if (element.kind == ElementKind::reservoir) pressure = reading_.value(element, Parameter::setting).value_or(0);
    if (element.kind == ElementKind::atmosphere) pressure = 0;
    if (element.kind == ElementKind::gas_volume) pressure = reading_.gas_pressure(element);
    if (!pressure || !passes(element)) continue;
    for (NodeId end : element.ends)
      if (end && std::isnan(fixed[point(end)])) fixed[point(end)] = *pressure / bar;
  }
}

std::vector<std::uint32_t> Assembly::points_of(const Element& element) const {
  std::vector<std::uint32_t> points;
  for (NodeId end : element.ends)
    if (end) points.push_back(point(end));
  return points;
}

void Assembly::add(const Element& element, AnyLaw law, const std::vector<std::uint32_t>& points, std::uint32_t own,
                   std::span<const double> gives) {
  model_.branch_of[circuit_.elements.id_of(element).index] = model_.network.add(std::move(law), points, own, gives);
}

void Assembly::add_sensing(const Element& element, PressurePath law) {
  std::vector<std::uint32_t> points = points_of(element);
  std::vector<double> gives{-1, 1};
  const bool reducing = element.kind == ElementKind::reducing_path;
  law.weight = {0, 0};
  if (element.senses.empty()) {
    law.weight = reducing ? std::vector<double>{0, -1} : std::vector<double>{1, element.has("drained") ? 0.0 : -1.0};
  }
  for (const Sense& sense : element.senses) {
    points.push_back(point(sense.node));
    law.weight.push_back(reducing ? -sense.weight : sense.weight);
    gives.push_back(0);
  }
  add(element, std::move(law), points, 1, gives);
}

// Ratio times pilot pressure against the load side; the pilot's spring side sees the inlet unless it is vented.
void Assembly::add_piloted(const Element& element, PilotedOneWay law) {
  std::vector<std::uint32_t> points = points_of(element);
  const double ratio = reading_.value_or(element, Parameter::ratio, 3, "3");
  std::vector<double> gives = law.closing ? std::vector<double>{-1, 1} : std::vector<double>{-1, 1, 1, -1};
  law.pilot = law.closing ? std::vector<double>{-1, 0} : std::vector<double>{element.has("vented") ? 1.0 : 1.0 - ratio, -1};
  for (const Sense& sense : element.senses) {
    points.push_back(point(sense.node));
    law.pilot.push_back(ratio * sense.weight);
    gives.insert(gives.end(), law.closing ? 1 : 2, 0.0);
  }
  const std::uint32_t own = law.closing ? 1 : 2;
  add(element, std::move(law), points, own, gives);
}

void Assembly::add_regulated(const Element& element) {
  const auto law = regulated_of(reading_, element);
  if (!law) return;
  constexpr double with_excess[] = {-1, -1, 1, 0, 0, 1};
  const auto points = points_of(element);
  if (points.size() > 2) return add(element, *law, points, 2, with_excess);
  add(element, *law, points, 1, flow_in_out);
}

// Terminals: outlet, inlet, case, sensed nodes. The leakage goes to the case, or back to the inlet where there is none.
void Assembly::add_pump(const Element& element) {
  if (!reading_.running(element.part) || element.ends.size() < 2) return;
  Pump law = pump_of(reading_, element);
  const bool over_centre = theoretical_flow(reading_, element) < 0;
  const NodeId out = element.ends[over_centre ? 0 : 1], in = element.ends[over_centre ? 1 : 0];
  const bool has_case = element.ends.size() > 2 && element.ends[2];
  if (!out || !(law.full > 0)) return;
  std::vector<std::uint32_t> points{point(out)};
  std::vector<double> gives{1, 0};
  if (in) {
    points.push_back(point(in));
    gives.insert(gives.end(), {-1.0, has_case ? -1.0 : 0.0});
  }
  if (has_case) {
    points.push_back(point(element.ends[2]));
    gives.insert(gives.end(), {0, 1});
  }
  law.weight.assign(points.size(), 0);
  for (const Sense& sense : element.senses) {
    points.push_back(point(sense.node));
    law.weight.push_back(sense.weight);
    gives.insert(gives.end(), {0, 0});
  }
  add(element, std::move(law), points, 2, gives);
}

struct Chambers {
  std::vector<std::uint32_t> points;
  std::vector<double> area, gives;
  void add(std::uint32_t point, double share, double outward, double inward) {
    points.push_back(point);
    area.push_back(share);
    gives.insert(gives.end(), {outward, inward});
  }
};

void Assembly::add_body(MovingBody& body) {
  if (body.locked || !(body.reference > 0)) return;
  Chambers chambers;
  for (ElementId id : body.elements) {
    const Element& element = circuit_.elements[id];
    if (element.kind == ElementKind::piston) {
      const PistonAreas areas = areas_of(reading_, element);
      const double cap = areas.cap / body.reference, rod = areas.rod_end / body.reference;
      if (element.ends[0]) chambers.add(point(element.ends[0]), cap, -cap, cap);
      if (element.ends.size() > 1 && element.ends[1]) chambers.add(point(element.ends[1]), -rod, rod, -rod);
      continue;
    }
    const double share = reading_.value(element, Parameter::displacement).value_or(0) / body.reference;
    const double takes = share / reading_.value_or(element, Parameter::volumetric, 0.9, "90 %"), leak = takes - share;
    const bool has_case = element.ends.size() > 2 && element.ends[2];
    const double passed = has_case ? share : takes;
    chambers.add(point(element.ends[0]), share, -takes, passed);
    chambers.add(point(element.ends[1]), -share, passed, -takes);
    if (has_case) chambers.add(point(element.ends[2]), 0, leak, leak);
  }
  Body law;
  law.area = std::move(chambers.area);
  law.load_out = body.load_out / body.reference / bar;
  law.load_in = body.load_in / body.reference / bar;
  law.friction = body.friction / body.reference / bar + least_friction;
  law.efficiency = body.efficiency;
  body.branch = model_.network.add(std::move(law), chambers.points, 2, chambers.gives);
  for (ElementId id : body.elements) model_.branch_of[id.index] = body.branch;
}

void Assembly::add(const Element& element) {
  switch (element.kind) {
    case ElementKind::pipe: return add_two_way(element, pipe_of(reading_, element));
    case ElementKind::restriction: return add_two_way(element, loss_of(reading_, element, scale_flow_));
    case ElementKind::flow_fuse:
      if (std::find(tripped_.begin(), tripped_.end(), circuit_.elements.id_of(element)) != tripped_.end()) return;
      return add_two_way(element, loss_of(reading_, element, scale_flow_));
    case ElementKind::one_way: return add_two_way(element, one_way_of(reading_, element, scale_flow_));
    case ElementKind::piloted_one_way: return add_piloted(element, piloted_of(reading_, element, scale_flow_));
    case ElementKind::pressure_path: return add_sensing(element, relief_of(reading_, element, scale_flow_));
    case ElementKind::reducing_path: return add_sensing(element, reducing_of(reading_, element, scale_flow_));
    case ElementKind::regulated_flow: return add_regulated(element);
    case ElementKind::selector: {
      constexpr double gives[] = {-1, 0, 0, -1, 1, 1};
      return add(element, Selector{}, points_of(element), 2, gives);
    }
    case ElementKind::displacement:
      if (is_pump(reading_, element)) add_pump(element);
      return;
    default: return;
  }
}

Model Assembly::build() {
  merge_points();
  fix_pressures();
  scale_flow_ = pump_flow(reading_);
  model_.branch_of.assign(circuit_.elements.size(), no_branch);
  for (const Element& element : circuit_.elements)
    if (passes(element)) add(element);
  model_.bodies = bodies_of(reading_);
  for (MovingBody& body : model_.bodies) add_body(body);
  return std::move(model_);
}

}  // namespace

Model network_of(Reading& reading, const std::vector<ElementId>& tripped) { return Assembly(reading, tripped).build(); }

}  // namespace ferrule::hydraulics
