// Step 9: the lines as drawn. Every tap, slot, drop and piece gives straight segments; they are merged, cut at tees, and traced
// into paths that run from an end or a tee to an end or a tee.
#include <algorithm>
#include <map>
#include <tuple>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

struct Segment { Point a, b; };

bool before(const Point& a, const Point& b) { return std::tie(a.x, a.y) < std::tie(b.x, b.y); }
struct PointOrder { bool operator()(const Point& a, const Point& b) const { return before(a, b); } };

struct NetLines {
  std::vector<Segment> segments;
  std::vector<std::pair<Point, int>> ends;      // port point, tap

  void add(Point a, Point b) {
    if (a == b) return;
    if (before(b, a)) std::swap(a, b);
    segments.push_back({a, b});
  }
};

// ---------------------------------------------------------------- segments

Point port_at(const Plan& plan, const Tap& tap) {
  const Node& node = plan.nodes[tap.node];
  const Pin& pin = pin_of(plan, tap);
  return {node.x + pin.at.x, node.y + pin.at.y};
}

void add_tap(const Plan& plan, int t, std::vector<NetLines>& lines) {
  const Tap& tap = plan.taps[t];
  if (tap.way == Way::none || tap.way == Way::hang) return;
  NetLines& net = lines[tap.net];
  const Node& node = plan.nodes[tap.node];
  const Point port = port_at(plan, tap);
  net.ends.push_back({port, t});
  if (tap.way == Way::tee) return net.add(port, {plan.slots[tap.mate].x, port.y});
  if (tap.way == Way::face) return net.add(port, port_at(plan, plan.taps[tap.mate]));
  const Channel& channel = plan.channels[channel_of(plan, tap) + 1];
  const int x = node.x + tap.lane;
  net.add(port, {x, port.y});
  net.add({x, port.y}, {x, tap.way == Way::up ? channel.bottom : channel.top});
}

void add_slots(const Plan& plan, std::vector<NetLines>& lines) {
  for (const Slot& slot : plan.slots)
    lines[plan.strands[slot.strand].net].add({slot.x, plan.channels[slot.row].top}, {slot.x, plan.channels[slot.row + 1].bottom});
}

// A drop reaches the farthest of the pieces that hang on it; one that goes straight through needs no piece.
void add_drop(const Channel& channel, const Bundle& bundle, const Drop& drop, NetLines& net, int start) {
  if (drop.above && drop.below) return net.add({drop.x, channel.top}, {drop.x, channel.bottom});
  for (int p = bundle.first_piece; p < bundle.first_piece + bundle.pieces; ++p) {
    const Piece& piece = channel.pieces[p];
    if (drop.x < piece.left || drop.x > piece.right) continue;
    net.add({drop.x, channel.track_y[piece.track]}, {drop.x, drop.above ? start : channel.bottom});
  }
}

void add_channel(const Channel& channel, std::vector<NetLines>& lines) {
  std::map<std::pair<int, int>, int> starts;      // (bundle, x) -> y of the step aside that leads there
  for (const Jog& jog : channel.jogs) {
    NetLines& net = lines[channel.bundles[jog.bundle].net];
    const int y = channel.top + 4 + 2 * jog.track;
    const auto from = starts.find({jog.bundle, jog.from});
    net.add({jog.from, from == starts.end() ? channel.top : from->second}, {jog.from, y});
    net.add({jog.from, y}, {jog.to, y});
    starts[{jog.bundle, jog.to}] = y;
  }
  for (std::size_t b = 0; b < channel.bundles.size(); ++b) {
    const Bundle& bundle = channel.bundles[b];
    NetLines& net = lines[bundle.net];
    for (int p = bundle.first_piece; p < bundle.first_piece + bundle.pieces; ++p) {
      const Piece& piece = channel.pieces[p];
      net.add({piece.left, channel.track_y[piece.track]}, {piece.right, channel.track_y[piece.track]});
    }
    for (const Drop& drop : bundle.drops) {
      const auto start = starts.find({int(b), drop.x});
      add_drop(channel, bundle, drop, net, start == starts.end() ? channel.top : start->second);
    }
  }
}

// ---------------------------------------------------------------- merging and tracing

// Collinear segments that touch become one.
std::vector<Segment> merged(std::vector<Segment> segments) {
  const auto vertical = [](const Segment& s) { return s.a.x == s.b.x; };
  std::sort(segments.begin(), segments.end(), [&](const Segment& s, const Segment& t) {
    if (vertical(s) != vertical(t)) return vertical(s);
    return vertical(s) ? std::tie(s.a.x, s.a.y, s.b.y) < std::tie(t.a.x, t.a.y, t.b.y) : std::tie(s.a.y, s.a.x, s.b.x) < std::tie(t.a.y, t.a.x, t.b.x);
  });
  std::vector<Segment> result;
  for (const Segment& s : segments) {
    if (!result.empty() && vertical(result.back()) == vertical(s)) {
      Segment& last = result.back();
      if (vertical(s) && last.a.x == s.a.x && s.a.y <= last.b.y) { last.b.y = std::max(last.b.y, s.b.y); continue; }
      if (!vertical(s) && last.a.y == s.a.y && s.a.x <= last.b.x) { last.b.x = std::max(last.b.x, s.b.x); continue; }
    }
    result.push_back(s);
  }
  return result;
}

struct Graph {
  std::map<Point, std::vector<Point>, PointOrder> joined;     // neighbours along the lines
  std::map<Point, int, PointOrder> ends;                      // port point -> tap

  void cut(const std::vector<Segment>& segments) {
    // Points where an end of one segment lies on another, found on the line they share.
    std::multimap<int, const Segment*> rows, columns;
    for (const Segment& s : segments) (s.a.x == s.b.x ? columns.emplace(s.a.x, &s) : rows.emplace(s.a.y, &s));
    std::map<const Segment*, std::vector<Point>> cuts;
    const auto mark = [&](const Point& point) {
      const auto [c, c_end] = columns.equal_range(point.x);
      for (auto i = c; i != c_end; ++i)
        if (i->second->a.y <= point.y && point.y <= i->second->b.y) cuts[i->second].push_back(point);
      const auto [r, r_end] = rows.equal_range(point.y);
      for (auto i = r; i != r_end; ++i)
        if (i->second->a.x <= point.x && point.x <= i->second->b.x) cuts[i->second].push_back(point);
    };
    for (const Segment& s : segments) mark(s.a), mark(s.b);
    for (const Segment& s : segments) link(cuts[&s]);
  }

  void link(std::vector<Point>& points) {
    std::sort(points.begin(), points.end(), before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    for (std::size_t i = 1; i < points.size(); ++i) {
      joined[points[i - 1]].push_back(points[i]);
      joined[points[i]].push_back(points[i - 1]);
    }
  }

  // Loose ends that are no port are cut back to the next tee.
  void prune() {
    std::vector<Point> loose;
    for (const auto& [point, next] : joined)
      if (next.size() == 1 && !ends.count(point)) loose.push_back(point);
    while (!loose.empty()) {
      const Point point = loose.back();
      loose.pop_back();
      const auto at = joined.find(point);
      if (at == joined.end() || at->second.size() != 1 || ends.count(point)) continue;
      const Point next = at->second[0];
      joined.erase(at);
      auto& back = joined[next];
      back.erase(std::find(back.begin(), back.end(), point));
      if (back.size() == 1) loose.push_back(next);
    }
  }

  bool is_node(const Point& point) const { return joined.at(point).size() != 2 || ends.count(point); }
};

bool lies_straight(const Point& a, const Point& b, const Point& c) {
  return (a.x == b.x && b.x == c.x) || (a.y == b.y && b.y == c.y);
}

Path trace(const Graph& graph, Point from, Point to) {
  Path path;
  path.points = {from, to};
  while (!graph.is_node(path.points.back())) {
    const Point at = path.points.back(), last = path.points[path.points.size() - 2];
    const auto& next = graph.joined.at(at);
    path.points.push_back(next[0] == last ? next[1] : next[0]);
  }
  std::vector<Point> corners;
  for (const Point& point : path.points) {
    if (corners.size() > 1 && lies_straight(corners[corners.size() - 2], corners.back(), point)) corners.back() = point;
    else corners.push_back(point);
  }
  path.points = std::move(corners);
  return path;
}

bool among(const std::vector<End>& ends, const End& end) {
  return std::any_of(ends.begin(), ends.end(), [&](const End& e) { return e.item == end.item && e.pin == end.pin; });
}

NetKind look_of(const Plan& plan, const Net& net, const Graph& graph, const Path& path) {
  for (const Point& point : {path.points.front(), path.points.back()}) {
    const auto end = graph.ends.find(point);
    if (end == graph.ends.end()) continue;
    if (among(net.pilot_ends, plan.taps[end->second].end)) return NetKind::pilot;
    if (among(net.drain_ends, plan.taps[end->second].end)) return NetKind::drain;
  }
  return net.kind;
}

void trace_net(const Plan& plan, const Net& net, NetLines& lines, Routed& routed) {
  Graph graph;
  for (const auto& [point, tap] : lines.ends) graph.ends[point] = tap;
  std::vector<Segment> segments = merged(std::move(lines.segments));
  graph.cut(segments);
  graph.prune();
  for (const auto& [point, next] : graph.joined) {
    if (!graph.is_node(point)) continue;
    if (next.size() > 2) routed.dots.push_back(point);
    for (const Point& to : next) {
      Path path = trace(graph, point, to);
      if (before(path.points.back(), path.points.front())) continue;       // traced from its other end
      path.look = look_of(plan, net, graph, path);
      routed.paths.push_back(std::move(path));
    }
  }
}

void hang_marks(const Plan& plan, Layout& layout) {
  for (const Node& node : plan.nodes) {
    std::size_t next = 0;
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (tap.way != Way::hang) continue;
      const Point port = port_at(plan, tap), mark{node.x + node.cell.marks[next].x, node.y + node.cell.marks[next].y};
      ++next;
      Path path{{port}, plan.problem->nets[tap.net].kind};
      if (port.x != mark.x && pin_of(plan, tap).side == Side::below) path.points.insert(path.points.end(), {{port.x, mark.y - 4}, {mark.x, mark.y - 4}});
      else if (port.x != mark.x) path.points.push_back({mark.x, port.y});
      path.points.push_back(mark);
      layout.nets[tap.net].paths.push_back(std::move(path));
      layout.marks.push_back({tap.hung.item, tap.hung, tap.net, mark});
    }
  }
}

}  // namespace

void route(const Plan& plan, Layout& layout) {
  const std::size_t nets = plan.problem->nets.size();
  layout.nets.resize(nets);
  std::vector<NetLines> lines(nets);
  for (std::size_t t = 0; t < plan.taps.size(); ++t) add_tap(plan, int(t), lines);
  add_slots(plan, lines);
  for (const Channel& channel : plan.channels) add_channel(channel, lines);
  for (std::size_t n = 0; n < nets; ++n)
    if (!lines[n].ends.empty()) trace_net(plan, plan.problem->nets[n], lines[n], layout.nets[n]);
  for (const Node& node : plan.nodes) {
    if (node.kind != Node::Kind::mark && node.kind != Node::Kind::entry) continue;
    const Tap& tap = plan.taps[node.taps[0]];
    auto& list = node.kind == Node::Kind::mark ? layout.marks : layout.entries;
    list.push_back({node.reservoir, tap.end, tap.net, port_at(plan, tap)});
  }
  hang_marks(plan, layout);
}

}  // namespace ferrule::layout
