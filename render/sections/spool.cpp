#include "render/sections/spool.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace ferrule::sections {
namespace {

constexpr double least_opening = 3, least_overlap = 2, least_land = 3.5, hole_margin = 0.5;
constexpr double first_chamber = 7, widest_chamber = 30, chamber_step = 0.5;

// ---------------------------------------------------------------- one order of chambers, one width

struct Trial {
  const PositionTable& table;
  std::vector<int> order;               // ports by chamber
  std::vector<std::vector<int>> group;  // by position and port: number of its group, unique when alone
  std::vector<double> offsets;
};

double travel(const Trial& trial) {
  const auto [low, high] = std::minmax_element(trial.offsets.begin(), trial.offsets.end());
  return *high - *low;
}

void lay_chambers(const Trial& trial, double width, Spool& spool) {
  const double end_web = travel(trial) + 4;
  double x = end_web;
  for (const int port : trial.order) {
    spool.chambers.push_back({port, {x, x + width}});
    x += width + web;
  }
  spool.length = x - web + end_web;
}

// Places of the spool at rest: what must be groove, and what must shut.
struct Places {
  std::vector<Interval> open, shut;
};

Places places_of(const Trial& trial, const Spool& spool) {
  Places out;
  const double first = spool.chambers.front().at.from, last = spool.chambers.back().at.to;
  for (std::size_t p = 0; p < trial.offsets.size(); ++p) {
    const double by = trial.offsets[p];
    out.shut.push_back({0 - by, first - by});
    out.shut.push_back({last - by, spool.length - by});
    for (std::size_t k = 0; k + 1 < spool.chambers.size(); ++k) {
      const Chamber &left = spool.chambers[k], &right = spool.chambers[k + 1];
      const auto port = [&](const Chamber& c) { return trial.group[p][static_cast<std::size_t>(c.port)]; };
      const Interval between{left.at.to - by, right.at.from - by};
      if (port(left) == port(right)) out.open.push_back({between.from - least_opening, between.to + least_opening});
      else out.shut.push_back(between);
    }
  }
  return out;
}

// What no groove takes, between the faces of the housing.
std::vector<Interval> left_over(std::vector<Interval> grooves, double length) {
  std::sort(grooves.begin(), grooves.end(), [](const Interval& a, const Interval& b) { return a.from < b.from; });
  std::vector<Interval> rest;
  double at = 0;
  for (const Interval& groove : grooves) {
    if (groove.from > at) rest.push_back({at, groove.from});
    at = std::max(at, groove.to);
  }
  if (at < length) rest.push_back({at, length});
  return rest;
}

// Of each land only the hull of what its webs need is kept, so that grooves are as wide as they can be. False when a place
// that must shut finds no overlap.
bool cut_lands(const Places& places, Spool& spool) {
  const std::vector<Interval> rest = left_over(places.open, spool.length);
  std::vector<std::optional<Interval>> kept(rest.size());
  for (const Interval& shut : places.shut) {
    std::size_t best = rest.size();
    Interval most{0, 0};
    for (std::size_t i = 0; i < rest.size(); ++i) {
      const Interval common{std::max(shut.from, rest[i].from), std::min(shut.to, rest[i].to)};
      if (common.to - common.from > most.to - most.from) best = i, most = common;
    }
    if (best == rest.size() || most.to - most.from < least_overlap) return false;
    const Interval need{std::max(rest[best].from, most.from - least_overlap), std::min(rest[best].to, most.to + least_overlap)};
    kept[best] = kept[best] ? Interval{std::min(kept[best]->from, need.from), std::max(kept[best]->to, need.to)} : need;
  }
  for (const auto& land : kept)
    if (land) spool.lands.push_back(*land);
  spool.lands.front().from = 0;
  spool.lands.back().to = spool.length;
  return std::all_of(spool.lands.begin(), spool.lands.end(), [](const Interval& land) { return land.to - land.from >= least_land; });
}

bool joins_as_told(const Trial& trial, const Spool& spool) {
  for (std::size_t p = 0; p < trial.offsets.size(); ++p)
    if (joins_at(spool, p) != sorted_groups(trial.table.joined[p])) return false;
  return true;
}

// ---------------------------------------------------------------- drilling

// A hole keeps away from the edges of lands.
bool is_off_edges(const Spool& spool, double hole) {
  return std::none_of(spool.lands.begin(), spool.lands.end(), [&](const Interval& land) {
    return std::abs(hole - land.from) < hole_radius + hole_margin || std::abs(hole - land.to) < hole_radius + hole_margin;
  });
}

// A hole on a land is either open to a chamber or lies well inside a web: never at an edge.
bool holes_are_clear(const Spool& spool) {
  if (!std::all_of(spool.holes.begin(), spool.holes.end(), [&](double hole) { return is_off_edges(spool, hole); })) return false;
  for (const double by : spool.offsets)
    for (const double hole : spool.holes) {
      const double from = hole + by - hole_radius, to = hole + by + hole_radius;
      const auto meets = [&](const Interval& i) { return to + hole_margin > i.from && from - hole_margin < i.to; };
      const auto opens = [&](const Interval& i) { return std::min(to, i.to) - std::max(from, i.from) >= hole_radius; };
      const auto groove = [&] {
        for (std::size_t g = 0; g + 1 < spool.lands.size(); ++g)
          if (opens({spool.lands[g].to + by, spool.lands[g + 1].from + by})) return true;
        return false;
      };
      const bool shut = std::none_of(spool.chambers.begin(), spool.chambers.end(), [&](const Chamber& c) { return meets(c.at); });
      const bool open = std::any_of(spool.chambers.begin(), spool.chambers.end(), [&](const Chamber& c) { return opens(c.at); });
      if (!shut && !open && !groove()) return false;
    }
  return true;
}

// Chambers of a group in runs of neighbours: each run needs one hole.
std::vector<std::vector<std::size_t>> runs_of(const Trial& trial, const Spool& spool, std::size_t position, int group) {
  std::vector<std::vector<std::size_t>> runs;
  bool inside = false;
  for (std::size_t k = 0; k < spool.chambers.size(); ++k) {
    const bool belongs = trial.group[position][static_cast<std::size_t>(spool.chambers[k].port)] == group;
    if (belongs && !inside) runs.emplace_back();
    if (belongs) runs.back().push_back(k);
    inside = belongs;
  }
  return runs;
}

bool is_drilled_well(const Trial& trial, Spool& spool, std::vector<double> holes) {
  std::sort(holes.begin(), holes.end());
  spool.holes = std::move(holes);
  return holes_are_clear(spool) && joins_as_told(trial, spool);
}

// First a hole for every chamber, which looks even; then one for every run, moved a little.
bool drill_for(const Trial& trial, Spool& spool, std::size_t position, int group) {
  const auto runs = runs_of(trial, spool, position, group);
  if (runs.size() < 2) return false;
  const auto middle = [&](std::size_t k) { return (spool.chambers[k].at.from + spool.chambers[k].at.to) / 2 - trial.offsets[position]; };
  std::vector<double> holes;
  for (const auto& run : runs)
    for (const std::size_t k : run) holes.push_back(middle(k));
  if (is_drilled_well(trial, spool, holes)) return true;
  constexpr std::array shifts{0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0};
  for (std::size_t which = 0; which < 2; ++which)
    for (const double shift : shifts) {
      holes.clear();
      for (const auto& run : runs) holes.push_back(middle(which ? run.back() : run.front()) + shift);
      if (is_drilled_well(trial, spool, holes)) return true;
    }
  return false;
}

bool drill(const Trial& trial, Spool& spool) {
  for (std::size_t p = 0; p < trial.offsets.size(); ++p)
    if (joins_at(spool, p) != sorted_groups(trial.table.joined[p]))
      for (const int group : trial.group[p])
        if (drill_for(trial, spool, p, group)) return true;
  return false;
}

std::optional<Spool> fitted(const Trial& trial) {
  for (double width = first_chamber; width <= widest_chamber; width += chamber_step) {
    Spool spool;
    spool.ports = trial.table.ports;
    spool.offsets = trial.offsets;
    lay_chambers(trial, width, spool);
    if (!cut_lands(places_of(trial, spool), spool)) continue;
    if (joins_as_told(trial, spool) || drill(trial, spool)) return spool;
  }
  return {};
}

// ---------------------------------------------------------------- orders

int index_of(const std::vector<std::string>& ports, const std::string& port) {
  return static_cast<int>(std::find(ports.begin(), ports.end(), port) - ports.begin());
}

// What makers usually build (common practice); empty for other ports.
std::vector<int> usual_order(const std::vector<std::string>& ports) {
  static const std::vector<std::vector<std::string>> usual{{"T", "A", "P", "B", "T"}, {"T", "A", "P"}, {"P", "A"}, {"T1", "A", "P", "B", "T2"}, {"T", "A", "P", "B", "T", "C1", "C2"}};
  for (const auto& order : usual) {
    std::vector<std::string> distinct = order, own = ports;
    std::sort(distinct.begin(), distinct.end());
    distinct.erase(std::unique(distinct.begin(), distinct.end()), distinct.end());
    std::sort(own.begin(), own.end());
    if (distinct != own) continue;
    std::vector<int> out;
    for (const std::string& port : order) out.push_back(index_of(ports, port));
    return out;
  }
  return {};
}

// Pieces into which a group falls: runs of neighbouring chambers, those of one port taken as one.
std::size_t pieces_of(const std::vector<int>& order, const std::vector<int>& group, int wanted) {
  std::vector<std::size_t> run(order.size(), 0);  // by chamber, 0 outside of the group
  std::size_t runs = 0;
  for (std::size_t k = 0; k < order.size(); ++k) {
    if (group[static_cast<std::size_t>(order[k])] != wanted) continue;
    run[k] = k > 0 && run[k - 1] ? run[k - 1] : ++runs;
  }
  std::size_t pieces = runs;
  for (std::size_t a = 0; a < order.size(); ++a)
    for (std::size_t b = a + 1; b < order.size(); ++b)
      if (run[a] && order[a] == order[b] && run[a] != run[b]) {
        const std::size_t gone = run[b], kept = run[a];
        std::replace(run.begin(), run.end(), gone, kept);
        --pieces;
      }
  return pieces;
}

// Groups that no neighbours join: each wants a drilling.
std::size_t drillings_of(const Trial& trial, const std::vector<int>& order) {
  std::size_t count = 0;
  for (const std::vector<int>& group : trial.group) {
    std::vector<int> seen;
    for (const int one : group) {
      if (std::find(seen.begin(), seen.end(), one) != seen.end()) continue;
      seen.push_back(one);
      count += pieces_of(order, group, one) > 1;
    }
  }
  return count;
}

struct Order {
  std::vector<int> chambers;
  std::size_t cost = 0;   // no drilling, low pressure at the end caps, few chambers: in this order
};

// Every order of the ports that at most one drilling completes, alone and with T, P or A a second time; the cheapest first.
std::vector<Order> orders_of(const Trial& trial) {
  const auto& ports = trial.table.ports;
  const auto is_tank = [&](int port) { return ports[static_cast<std::size_t>(port)].starts_with('T'); };
  std::vector<Order> orders;
  for (const char* again : {"", "T", "P", "A"}) {
    std::vector<int> order(ports.size());
    for (std::size_t i = 0; i < ports.size(); ++i) order[i] = static_cast<int>(i);
    const int second = index_of(ports, again);
    if (*again && second == static_cast<int>(ports.size())) continue;
    if (*again) order.push_back(second);
    std::sort(order.begin(), order.end());
    do {
      if (order.front() > order.back()) continue;  // a mirror image of one seen
      const std::size_t drillings = drillings_of(trial, order);
      if (drillings > 1) continue;
      const std::size_t ends = !is_tank(order.front()) + !is_tank(order.back());
      orders.push_back({order, 100 * drillings + 10 * ends + order.size()});
    } while (std::next_permutation(order.begin(), order.end()));
  }
  std::stable_sort(orders.begin(), orders.end(), [](const Order& a, const Order& b) { return a.cost < b.cost; });
  return orders;
}

constexpr std::size_t most_ports = 7;  // of more no order is searched

std::optional<Spool> cheapest(Trial trial) {
  if (trial.table.ports.size() > most_ports) return {};
  for (const Order& order : orders_of(trial)) {
    trial.order = order.chambers;
    if (const auto spool = fitted(trial)) return spool;
  }
  return {};
}

std::vector<int> groups_by_port(const PositionTable& table, const Groups& groups) {
  std::vector<int> out(table.ports.size());
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = -1 - static_cast<int>(i);
  for (std::size_t g = 0; g < groups.size(); ++g)
    for (const std::string& port : groups[g]) out[static_cast<std::size_t>(index_of(table.ports, port))] = static_cast<int>(g);
  return out;
}

void join(Groups& groups, const std::vector<std::string>& ports) {
  std::vector<std::string> merged = ports;
  Groups kept;
  for (auto& group : groups) {
    const bool meets = std::any_of(group.begin(), group.end(), [&](const std::string& port) { return std::find(ports.begin(), ports.end(), port) != ports.end(); });
    if (!meets) kept.push_back(group);
    for (const std::string& port : group)
      if (meets && std::find(merged.begin(), merged.end(), port) == merged.end()) merged.push_back(port);
  }
  kept.push_back(std::move(merged));
  groups = std::move(kept);
}

}  // namespace

PositionTable table_of(const Part& valve) {
  PositionTable table;
  table.rest = std::max(0, valve.rest);
  for (const PositionRow& row : valve.positions) {
    Groups groups;
    for (const RowPath& path : row.paths) {
      join(groups, path.ports);
      for (const std::string& port : path.ports)
        if (std::find(table.ports.begin(), table.ports.end(), port) == table.ports.end()) table.ports.push_back(port);
    }
    table.joined.push_back(std::move(groups));
  }
  return table;
}

std::optional<Spool> spool_for(const PositionTable& table, std::string& why) {
  if (table.ports.size() < 2 || table.joined.size() < 2) {
    why = "a spool needs two ports and two positions at least";
    return {};
  }
  Trial trial{table, {}, {}, {}};
  for (std::size_t p = 0; p < table.joined.size(); ++p) {
    trial.group.push_back(groups_by_port(table, table.joined[p]));
    trial.offsets.push_back((table.rest - static_cast<int>(p)) * stroke);
  }
  trial.order = usual_order(table.ports);
  if (!trial.order.empty())
    if (const auto spool = fitted(trial)) return spool;
  if (const auto spool = cheapest(trial)) return spool;
  why = "no single spool with one drilling joins what its positions say";
  return {};
}

}  // namespace ferrule::sections
