// Step 11: the finished geometry pressed together from the bottom. Rows and tracks were given room of their own across the whole
// sheet; what stands beside one another needs none. Every row and every level piece gets the least height that keeps it over what
// lies under it, then lines are made short. The order of all that overlaps in x stays, so nothing can come to lie on anything.
#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

#include "render/layout/least_sum.hpp"
#include "render/layout/occupied.hpp"
#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

// Height above the reference row grows upward; y grows downward.
struct Slab {                  // a box that keeps its place relative to a variable
  int left, right;
  int top, bottom;             // heights above the variable
  int var;
  enum class Kind : std::uint8_t { body, text, line, mark } kind;
  int net;                     // of a line or a mark, -1
  int order = 0;               // twice the height of its middle before pressing: what lies under what
};

struct PointOrder {
  bool operator()(const Point& a, const Point& b) const { return std::tie(a.x, a.y) < std::tie(b.x, b.y); }
};

// A corner, tee or port of a net, and which variable its height follows.
struct Joint { int var = -1, away = 0; bool port = false; };

struct Press {
  Plan& plan;
  Layout& layout;
  const Distances& distances;
  const std::vector<int>& room;            // by net: more air beside its level pieces, for its texts
  std::vector<int> height;                 // by variable; rows first
  std::vector<int> was;
  std::vector<Slab> slabs;
  std::vector<std::map<Point, Joint, PointOrder>> joints;      // by net
  struct Lifted { int net; Point at, joint; };
  std::vector<Lifted> lifted;
  std::vector<Gap> gaps;
  std::vector<Pull> pulls;

  // ---------------------------------------------------------------- variables

  void add_rows() {
    for (const int y : plan.row_y) height.push_back(-y);
    joints.resize(layout.nets.size());
    for (const Tap& tap : plan.taps) {
      const Node& node = plan.nodes[tap.node];
      const Pin& pin = pin_of(plan, tap);
      tie(tap.net, {node.x + pin.at.x, node.y + pin.at.y}, node.row);
    }
    for (const TankMark& mark : layout.marks) tie_hung(mark);
    for (const TankMark& mark : layout.marks) lift(mark);
  }

  // A mark that hangs straight under a joint follows that joint, not its row: 2 M below it (gold rule 8).
  void lift(const TankMark& mark) {
    for (const Path& path : layout.nets[mark.net].paths) {
      if (path.points.size() < 2) continue;
      const bool first = path.points.front() == mark.at;
      if (!first && !(path.points.back() == mark.at)) continue;
      const Point joint = first ? path.points[1] : path.points[path.points.size() - 2];
      if (joint.x != mark.at.x || joint.y >= mark.at.y || joints[mark.net].count(joint)) return;
      height.push_back(-mark.at.y);
      joints[mark.net][mark.at] = {int(height.size()) - 1, 0, true};
      lifted.push_back({mark.net, mark.at, joint});
      return;
    }
  }

  void tie(int net, Point at, int row) { joints[net][at] = {row, -at.y - height[row], true}; }

  // A mark that hangs in the cell of its symbol follows its row; its line starts at the symbol's port.
  void tie_hung(const TankMark& mark) {
    if (joints[mark.net].count(mark.at) || joints[mark.net].empty()) return;
    const int row = joints[mark.net].begin()->second.var;
    for (const Path& path : layout.nets[mark.net].paths)
      for (const Point& point : path.points) tie(mark.net, point, row);
  }

  // Level pieces that meet are one variable, that of a port when they end in one.
  void add_level_pieces(int n) {
    std::map<Point, Joint, PointOrder>& at = joints[n];
    std::map<std::pair<int, int>, int> known;           // piece end -> variable of the level line
    for (int pass = 0; pass < 2; ++pass)
      for (const Path& path : layout.nets[n].paths)
        for (std::size_t i = 1; i < path.points.size(); ++i)
          if (const Point a = path.points[i - 1], b = path.points[i]; a.y == b.y) join(at, a, b, pass == 1);
    bool changed = true;
    while (changed) {                                   // a port's hold runs along its line
      changed = false;
      for (const Path& path : layout.nets[n].paths)
        for (std::size_t i = 1; i < path.points.size(); ++i) {
          const Point a = path.points[i - 1], b = path.points[i];
          if (a.y != b.y || at[a].var == at[b].var) continue;
          const Joint low = at[a].var < at[b].var ? at[a] : at[b];
          at[a] = {low.var, low.away, at[a].port}, at[b] = {low.var, low.away, at[b].port};
          changed = true;
        }
    }
  }

  // Ports first, so that the smaller variable, a row, wins; then new variables for what hangs free.
  void join(std::map<Point, Joint, PointOrder>& at, Point a, Point b, bool fresh) {
    const bool known_a = at.count(a), known_b = at.count(b);
    if (known_a && !known_b) at[b] = {at[a].var, at[a].away, false};
    if (known_b && !known_a) at[a] = {at[b].var, at[b].away, false};
    if (known_a || known_b || !fresh) return;
    height.push_back(-a.y);
    at[a] = at[b] = {int(height.size()) - 1, 0, false};
  }

  bool all_known() const {
    for (std::size_t n = 0; n < layout.nets.size(); ++n)
      for (const Path& path : layout.nets[n].paths)
        for (const Point& point : path.points)
          if (!joints[n].count(point)) return false;
    return true;
  }

  // ---------------------------------------------------------------- slabs

  void add_box(const Box& box, int var, Slab::Kind kind, int net = -1) {
    slabs.push_back({box.left, box.right, -box.top - was[var], -box.bottom - was[var], var, kind, net, -box.top - box.bottom});
  }

  void add_symbols() {
    std::map<std::string, int> row_of_text;
    for (const Node& node : plan.nodes) {
      if (node.kind == Node::Kind::tail || node.kind == Node::Kind::entry) continue;
      const int row = node.placed_apart ? 0 : node.row;
      if (node.source < 0) continue;
      add_box(box_of(*plan.problem, layout, node.source), row, Slab::Kind::body);
      for (const TextBlock& text : node.item->texts) row_of_text[text.id] = row;
    }
    for (const PlacedText& text : layout.texts) add_box(text.box, row_of_text[text.id], Slab::Kind::text);
    for (const TankMark& mark : layout.marks) {
      add_box(box_of_mark(mark), joints[mark.net].at(mark.at).var, Slab::Kind::mark, mark.net);
      for (const Lifted& one : lifted)
        if (one.net == mark.net && one.at == mark.at) slabs.back().order = -2 * one.joint.y - 1;
    }
  }

  void add_lines() {
    for (std::size_t n = 0; n < layout.nets.size(); ++n)
      for (const Path& path : layout.nets[n].paths)
        for (std::size_t i = 1; i < path.points.size(); ++i) {
          const Point a = path.points[i - 1], b = path.points[i];
          if (a.y == b.y) add_box({std::min(a.x, b.x), a.y, std::max(a.x, b.x), a.y}, joints[n].at(a).var, Slab::Kind::line, int(n));
          else add_pull(int(n), a.y > b.y ? a : b, a.y > b.y ? b : a);
        }
  }

  // Rails hang close under the valves, what joins inside the supply close over the pump, what joins in a branch over its valve.
  void add_pull(int n, Point low, Point high) {
    const Joint from = joints[n].at(low), to = joints[n].at(high);
    if (from.var == to.var) return;
    const bool rail = from.var >= plan.rows && to.port && to.var > plan.supply_rows;
    const bool over = from.port && to.var >= plan.rows;
    pulls.push_back({from.var, to.var, 0, 2 + (rail ? 2 : 0) + (over ? 1 : 0)});
  }

  // ---------------------------------------------------------------- what must stay over what

  int least(const Slab& low, const Slab& high) const {
    using Kind = Slab::Kind;
    if (low.kind == Kind::mark && low.net == high.net) return mark_stub;
    if (low.kind == Kind::line && high.kind == Kind::line) {
      if (low.net == high.net) return distances.tees;
      return plan.problem->nets[low.net].texts.empty() ? distances.tracks : distances.lettered_tracks;
    }
    if (low.kind == Kind::text || high.kind == Kind::text) return distances.texts;
    if (low.kind == Kind::body && high.kind == Kind::body) return distances.bodies;
    return distances.port_to_track;
  }

  int roomier(int net) const { return net >= 0 && net < int(room.size()) ? room[std::size_t(net)] : 0; }

  void keep(const Slab& low, const Slab& high) {
    if (low.var == high.var) return;
    const int distance = least(low, high) + roomier(low.net) + roomier(high.net);
    const int now = (height[high.var] + high.bottom) - (height[low.var] + low.top);
    const bool lifted_one = low.kind == Slab::Kind::mark || high.kind == Slab::Kind::mark;
    const int asked = (lifted_one ? distance : std::min(distance, now)) + low.top - high.bottom;
    const int even = asked + (asked & 1);
    gaps.push_back({low.var, high.var, even <= height[high.var] - height[low.var] ? even : asked});
  }

  // Rows stay in their order by centres, also where nothing of one stands over the other: supply low, actuators high.
  void keep_rows() {
    for (int r = 1; r < plan.rows; ++r) gaps.push_back({r - 1, r, std::min(row_step, height[r] - height[r - 1])});
  }

  // The uppermost slabs so far over every x; two deep, since a thin one may hide one that asks for more.
  void add_gaps() {
    int left = 1 << 28, right = -(1 << 28);
    for (const Slab& slab : slabs) left = std::min(left, slab.left - reach), right = std::max(right, slab.right + reach);
    if (left > right) return;
    std::vector<std::array<int, depth>> tops(std::size_t(right - left + 1), std::array<int, depth>{-1, -1, -1});
    std::vector<int> order(slabs.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return slabs[a].order < slabs[b].order; });
    for (const int s : order) {
      std::vector<int> under;
      for (int x = slabs[s].left - reach; x <= slabs[s].right + reach; ++x) {
        auto& top = tops[std::size_t(x - left)];
        for (const int t : top)
          if (t >= 0 && (under.empty() || under.back() != t)) under.push_back(t);
        if (x < slabs[s].left || x > slabs[s].right) continue;
        std::copy_backward(top.begin(), top.end() - 1, top.end());
        top[0] = s;
      }
      std::sort(under.begin(), under.end());
      under.erase(std::unique(under.begin(), under.end()), under.end());
      for (const int t : under) keep(slabs[t], slabs[s]);
    }
  }

  static constexpr int mark_stub = 4, row_step = 4;
  static constexpr int reach = 2;       // 1 M apart counts as over one another
  static constexpr std::size_t depth = 3;

  // ---------------------------------------------------------------- solving

  // Longest ways from the bottom; false when rows and pieces hold one another in a ring.
  bool sink() {
    std::vector<int> order(height.size());
    std::iota(order.begin(), order.end(), 0);
    std::vector<std::vector<Gap>> over(height.size());
    for (const Gap& gap : gaps) over[gap.b].push_back(gap);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return height[a] < height[b]; });
    std::vector<int> low(height.size(), 0);
    for (int pass = 0; pass < 20; ++pass) {
      bool changed = false;
      for (const int v : order)
        for (const Gap& gap : over[v])
          if (low[v] < low[gap.a] + gap.least) low[v] = low[gap.a] + gap.least, changed = true;
      if (changed) continue;
      height = low;
      return true;
    }
    return false;
  }

  void apply() {
    for (std::size_t n = 0; n < layout.nets.size(); ++n) {
      for (Path& path : layout.nets[n].paths)
        for (Point& point : path.points) point = moved(int(n), point);
      for (Point& dot : layout.nets[n].dots) dot = moved(int(n), dot);
    }
    for (auto* list : {&layout.marks, &layout.entries})
      for (TankMark& mark : *list) mark.at = moved(mark.net, mark.at);
    std::map<std::string, int> shift;
    for (Node& node : plan.nodes) {
      const int row = node.placed_apart ? 0 : node.row, by = was[row] - height[row];
      if (!node.placed_apart) node.y += by;
      if (node.source < 0) continue;
      layout.items[node.source].at.y += by;
      for (const TextBlock& text : node.item->texts) shift[text.id] = by;
    }
    for (PlacedText& text : layout.texts) text.box.top += shift[text.id], text.box.bottom += shift[text.id];
    for (int r = 0; r < plan.rows; ++r) plan.row_y[r] = -height[r];
  }

  Point moved(int net, Point point) const {
    const auto at = joints[net].find(point);
    return at == joints[net].end() ? point : Point{point.x, -(height[at->second.var] + at->second.away)};
  }
};

}  // namespace

void compact(Plan& plan, Layout& layout, const Distances& distances, const std::vector<int>& room) {
  if (plan.rows == 0) return;
  Press press{plan, layout, distances, room, {}, {}, {}, {}, {}, {}, {}};
  press.add_rows();
  for (std::size_t n = 0; n < layout.nets.size(); ++n) press.add_level_pieces(int(n));
  if (!press.all_known()) return;
  press.was = press.height;
  press.add_symbols();
  press.add_lines();
  press.add_gaps();
  press.keep_rows();
  if (!press.sink()) return;
  settle(press.height, press.gaps, press.pulls);
  const int back = press.height[0] - press.was[0];
  for (int& h : press.height) h -= back;
  press.apply();
}

}  // namespace ferrule::layout
