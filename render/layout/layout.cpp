// The steps of a layout in their order, and what a problem must be for them to hold.
#include "render/layout/layout.hpp"

#include <algorithm>
#include <set>

#include "render/layout/occupied.hpp"
#include "render/layout/plan.hpp"
#include "render/layout/tidiness.hpp"

namespace ferrule::layout {

namespace {

Box with_pins(const Pose& pose) {
  Box box = pose.box;
  for (const Pin& pin : pose.pins) box = hull(box, {pin.at.x, pin.at.y, pin.at.x, pin.at.y});
  return box;
}

// Every item has a pose, all poses have the same pins, boxes reach their pins, indices point somewhere.
Problem sanitized(const Problem& given) {
  Problem problem = given;
  const int items = int(problem.items.size()), groups = int(problem.groups.size());
  for (Item& item : problem.items) {
    if (item.poses.empty()) item.poses.push_back({});
    const std::size_t pins = item.poses[0].pins.size();
    item.poses.erase(std::remove_if(item.poses.begin(), item.poses.end(), [&](const Pose& p) { return p.pins.size() != pins; }),
                     item.poses.end());
    for (Pose& pose : item.poses) pose.box = with_pins(pose);
    const bool hosted = item.host >= 0 && item.host < items && problem.items[item.host].trough;
    if (!hosted) item.host = -1, item.on_cover = false, item.in_trough = false;
    if (item.beside >= items || item.beside == int(&item - problem.items.data())) item.beside = -1;
    if (item.beside >= 0 && problem.items[item.beside].beside >= 0) item.beside = -1;
    if (item.group >= groups) item.group = -1;
    if (item.trough) item.on_cover = item.in_trough = false, item.host = -1;
  }
  for (Net& net : problem.nets) {
    const auto outside = [&](const End& e) { return e.item < 0 || e.item >= items; };
    net.ends.erase(std::remove_if(net.ends.begin(), net.ends.end(), outside), net.ends.end());
  }
  for (int g = 0; g < groups; ++g)
    if (Group& group = problem.groups[g]; group.parent >= g || group.parent < -1) group.parent = -1;
  return problem;
}

void place_items(const Plan& plan, Layout& layout) {
  layout.items.resize(plan.problem->items.size());
  for (const Node& node : plan.nodes) {
    if (node.source < 0) continue;
    Placed& placed = layout.items[node.source];
    placed.tier = node.tier, placed.branch = node.block;
    if (node.placed_apart) continue;
    placed.at = {node.x, node.y};
    placed.pose = node.pose;
    for (PlacedText text : node.cell.texts) {
      text.box = {text.box.left + node.x, text.box.top + node.y, text.box.right + node.x, text.box.bottom + node.y};
      layout.texts.push_back(std::move(text));
    }
  }
}

// Nets a text of which stands apart from its line.
bool ask_for_room(const Problem& problem, const Layout& layout, std::vector<int>& room) {
  std::set<std::string> apart;
  for (const PlacedText& text : layout.texts)
    if (!text.leader.empty()) apart.insert(text.id);
  bool asked = false;
  for (std::size_t n = 0; n < problem.nets.size() && !apart.empty(); ++n)
    for (const LineText& text : problem.nets[n].texts)
      if (apart.count(text.id)) room[n] += 6, asked = true;
  return asked;
}

// Presses, encloses and letters; where a text found no place beside its line, once more with more air there.
Layout lettered(const Problem& problem, const Plan& loose, const Layout& routed, const Distances& distances) {
  std::vector<int> room(problem.nets.size(), 0);
  for (int tries = 0;; ++tries) {
    Plan plan = loose;
    Layout layout = routed;
    compact(plan, layout, distances, room);
    enclose(plan, layout);
    place_line_texts(plan, layout);
    if (tries < 2 && ask_for_room(problem, layout, room)) continue;
    layout.extent = extent_of(problem, layout);
    judge_hints(plan, layout);
    return layout;
  }
}

Plan with_rows(const Problem& problem, const Distances& distances, const Habits& habits) {
  Plan plan;
  plan.problem = &problem;
  plan.distances = distances;
  plan.habits = habits;
  take_apart(plan);
  assign_rows(plan);
  return plan;
}

// From its rows on.
Layout finished(const Problem& problem, Plan& plan) {
  draw_strands(plan);
  put_in_order(plan);
  build_cells(plan);
  set_columns(plan);
  lay_tracks(plan);
  set_heights(plan);
  Layout layout;
  place_items(plan, layout);
  route(plan, layout);
  place_troughs(plan, layout);
  return lettered(problem, plan, layout, plan.distances);
}

bool same_rows(const Plan& a, const Plan& b) {
  return std::equal(a.nodes.begin(), a.nodes.end(), b.nodes.begin(), b.nodes.end(), [](const Node& x, const Node& y) { return x.row == y.row; });
}

bool lifts(const Plan& plan) {
  for (std::size_t t = 0; t < plan.taps.size(); ++t)
    if (may_be_lifted(plan, int(t)) && plan.nodes[plan.taps[t].node].item->family != "pump") return true;
  return false;
}

// A crossing is as bad as a few bends; the earlier habit is worth one.
int untidiness(const Layout& layout, int habit) {
  constexpr int crossing = 4;
  return 2 * (crossing * crossings_of(layout) + bends_of(layout)) + 3 * habit;
}

// The tidiest of what differs by habit; of small circuits only, in a large one a single look is enough.
struct Tidiest {
  const Problem& problem;
  Layout best;
  int least = 1 << 30, habit = 0;

  // Whether the habit of a straight lane weighed in.
  bool look(Plan plan) {
    Layout layout = finished(problem, plan);
    if (const int now = untidiness(layout, habit++); now < least) least = now, best = std::move(layout);
    return plan.lane_straightened;
  }

  void look_with_lanes(const Plan& rows) {
    Plan bent = rows;
    bent.habits.straight_lane = false;
    if (look(rows)) look(std::move(bent));
    else ++habit;
  }
};

}  // namespace

Layout lay_out(const Problem& given, const Distances& distances) {
  constexpr std::size_t large = 120;
  const Problem problem = sanitized(given);
  Plan rows = with_rows(problem, distances, {true, false, false});
  if (problem.items.size() > large) return finished(problem, rows);
  Tidiest tidiest{problem, {}};
  tidiest.look_with_lanes(rows);
  if (lifts(rows)) {
    Plan lifting = rows;
    lifting.habits.lift_signals = true;
    tidiest.look_with_lanes(lifting);
  }
  if (Plan climbing = with_rows(problem, distances, {true, false, true}); !same_rows(rows, climbing)) tidiest.look_with_lanes(climbing);
  return std::move(tidiest.best);
}

std::vector<int> branches_of(const Problem& given) {
  const Problem problem = sanitized(given);
  Plan plan;
  plan.problem = &problem;
  take_apart(plan);
  std::vector<int> branches(problem.items.size(), 0);
  for (const Node& node : plan.nodes)
    if (node.source >= 0) branches[node.source] = node.block;
  return branches;
}

}  // namespace ferrule::layout
