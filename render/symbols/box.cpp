#include "render/symbols/box.hpp"

#include <algorithm>
#include <set>

namespace ferrule::symbols {
namespace {

using enum StrokeKind;
using At = BoxPorts::At;

// Ports that a position joins, as indices into BoxPorts::ports, ascending.
using Group = std::vector<std::size_t>;

struct Joined {
  std::vector<Group> groups;          // two ports or more, by their first port
  std::set<std::size_t> arrows;       // an arrow head points at this port
  std::set<std::size_t> restricted;
  std::vector<std::pair<std::size_t, std::size_t>> seats;  // from, to
};

class Reading {
 public:
  Reading(const BoxPorts& box, const std::vector<RowPath>& paths);
  Joined joined;
  std::vector<std::size_t> blocked;

 private:
  std::size_t index_of(const std::string& name) const;
  void join(std::size_t a, std::size_t b);
  void mark(const RowPath& path, std::size_t first, std::size_t second);
  const BoxPorts& box_;
  std::vector<std::size_t> set_of_;
};

Reading::Reading(const BoxPorts& box, const std::vector<RowPath>& paths) : box_(box), set_of_(box.ports.size()) {
  for (std::size_t i = 0; i < set_of_.size(); ++i) set_of_[i] = i;
  for (const RowPath& path : paths)
    for (std::size_t i = 1; i < path.ports.size(); ++i) {
      const std::size_t a = index_of(path.ports[i - 1]), b = index_of(path.ports[i]);
      if (a >= set_of_.size() || b >= set_of_.size()) continue;
      join(a, b);
      mark(path, a, b);
    }
  for (std::size_t first = 0; first < set_of_.size(); ++first) {
    Group group;
    for (std::size_t i = 0; i < set_of_.size(); ++i)
      if (set_of_[i] == first) group.push_back(i);
    if (group.size() > 1) joined.groups.push_back(group);
    if (group.size() == 1) blocked.push_back(group.front());
  }
  std::sort(joined.groups.begin(), joined.groups.end());
  std::sort(blocked.begin(), blocked.end());
}

std::size_t Reading::index_of(const std::string& name) const {
  const At* at = box_.find(name);
  return at ? static_cast<std::size_t>(at - box_.ports.data()) : box_.ports.size();
}

void Reading::join(std::size_t a, std::size_t b) {
  const std::size_t keep = std::min(set_of_[a], set_of_[b]), drop = std::max(set_of_[a], set_of_[b]);
  std::replace(set_of_.begin(), set_of_.end(), drop, keep);
}

void Reading::mark(const RowPath& path, std::size_t first, std::size_t second) {
  using Kind = RowPath::Kind;
  if (path.kind == Kind::arrow || path.kind == Kind::both) joined.arrows.insert(second);
  if (path.kind == Kind::both) joined.arrows.insert(first);
  if (path.kind == Kind::restricted) joined.restricted.insert(first);
  if (path.kind == Kind::one_way) joined.seats.emplace_back(first, second);
}

double inward(const At& port) { return port.y == 0 ? 1 : -1; }

Stroke mark_at(const char* part, double x, double y, std::uint8_t quarters = 0) {
  return {use, {clean(x), clean(y)}, part, quarters, false};
}

class Drawing {
 public:
  Drawing(const BoxPorts& box, const Reading& reading) : box_(box), joined_(reading.joined) {
    for (const Group& group : joined_.groups) add(group);
    for (const std::size_t port : reading.blocked) add_blocked(box.ports[port]);
  }
  Strokes strokes;

 private:
  void add(const Group& group);
  void add_seat(std::size_t from, std::size_t to);
  void add_pair(std::size_t a, std::size_t b);
  void add_cross(const Group& group);
  void add_blocked(const At& port);
  bool one_side(const Group& group) const { return box_.ports[group[0]].y == box_.ports[group[1]].y; }
  bool slants_outside(const Group& group) const;
  const BoxPorts& box_;
  const Joined& joined_;
};

void Drawing::add(const Group& group) {
  const bool restricted = std::any_of(group.begin(), group.end(), [&](std::size_t p) { return joined_.restricted.contains(p); });
  if (group.size() > 2 || restricted) return add_cross(group);
  for (const auto& [from, to] : joined_.seats)
    if ((from == group[0] && to == group[1]) || (from == group[1] && to == group[0])) return add_seat(from, to);
  add_pair(group[0], group[1]);
}

// A seat stands in the middle of the way, the ball kept from `to` to `from`.
void Drawing::add_seat(std::size_t from, std::size_t to) {
  const At &a = box_.ports[from], &b = box_.ports[to];
  const double middle = box_.height / 2, way = a.y > b.y ? 1 : -1;
  strokes.push_back(stroke(line, {a.x, a.y, a.x, clean(middle + 0.5 * way)}));
  strokes.push_back(mark_at("check", a.x, middle, way > 0 ? 0 : 2));
  strokes.push_back(stroke(line, {a.x, clean(middle - 0.707 * way), a.x, b.y}));
}

void Drawing::add_pair(std::size_t a, std::size_t b) {
  if (joined_.arrows.contains(a) && !joined_.arrows.contains(b)) std::swap(a, b);
  const bool at_a = joined_.arrows.contains(a), at_b = joined_.arrows.contains(b);
  const StrokeKind kind = at_a && at_b ? arrow2 : at_b ? arrow : line;
  const At &from = box_.ports[a], &to = box_.ports[b];
  if (from.y != to.y) return strokes.push_back(stroke(kind, {from.x, from.y, to.x, to.y}));
  std::set<double> sides;
  for (const Group& group : joined_.groups)
    if (group.size() == 2 && one_side(group)) sides.insert(box_.ports[group[0]].y);
  const double depth = clean(from.y + inward(from) * (sides.size() > 1 ? 1.25 : box_.height / 2));
  strokes.push_back(stroke(kind, {from.x, from.y, from.x, depth, to.x, depth, to.x, to.y}));
}

// Another pair runs from side to side and not straight.
bool Drawing::slants_outside(const Group& group) const {
  return std::any_of(joined_.groups.begin(), joined_.groups.end(), [&](const Group& other) {
    if (other.size() != 2 || other == group || one_side(other)) return false;
    return box_.ports[other[0]].x != box_.ports[other[1]].x;
  });
}

void Drawing::add_cross(const Group& group) {
  double left = box_.width, right = 0, middle = box_.height / 2;
  std::size_t below = 0;
  for (const std::size_t port : group) {
    left = std::min(left, box_.ports[port].x);
    right = std::max(right, box_.ports[port].x);
    below += box_.ports[port].y > 0;
  }
  if (slants_outside(group)) middle += 2 * below > group.size() ? 0.75 : -0.75;
  if (left < right) strokes.push_back(stroke(line, {left, middle, right, middle}));
  for (const std::size_t port : group) {
    const At& at = box_.ports[port];
    strokes.push_back(stroke(joined_.arrows.contains(port) ? arrow : line, {at.x, middle, at.x, at.y}));
  }
  for (const std::size_t port : group)
    if (joined_.restricted.contains(port)) strokes.push_back(mark_at("throttle-small", box_.ports[port].x, (middle + box_.ports[port].y) / 2));
}

void Drawing::add_blocked(const At& port) {
  const double end = port.y + inward(port);
  strokes.push_back(stroke(line, {port.x, port.y, port.x, end}));
  strokes.push_back(stroke(line, {port.x - 0.5, end, port.x + 0.5, end}));
}

}  // namespace

Strokes box_strokes(const BoxPorts& box, const std::vector<RowPath>& paths) {
  const Reading reading(box, paths);
  return Drawing(box, reading).strokes;
}

}  // namespace ferrule::symbols
