#include "render/set/units.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace ferrule::set {
namespace {

using layout::NetKind;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// Sets of items that stay together.
struct Bonds {
  std::vector<int> up;   // by item
  explicit Bonds(std::size_t items) : up(items) { std::iota(up.begin(), up.end(), 0); }
  int root(int item) {
    while (up[at(item)] != item) item = up[at(item)] = up[at(up[at(item)])];
    return item;
  }
  void tie(int a, int b) {
    a = root(a), b = root(b);
    up[at(std::max(a, b))] = std::min(a, b);
  }
};

int outermost(const layout::Problem& problem, int group) {
  while (group >= 0 && problem.groups[at(group)].parent >= 0) group = problem.groups[at(group)].parent;
  return group;
}

// The ends of a net in the unit; none of a reservoir, whose sign may stand on any sheet, unless oil is drawn from it.
std::vector<int> members(const layout::Problem& problem, const layout::Net& net, const std::vector<char>& inside) {
  std::vector<int> items;
  for (const layout::End& end : net.ends)
    if (inside[at(end.item)] && (!problem.items[at(end.item)].trough || net.kind == NetKind::suction)) items.push_back(end.item);
  std::sort(items.begin(), items.end());
  items.erase(std::unique(items.begin(), items.end()), items.end());
  return items;
}

void tie_all(Bonds& bonds, const std::vector<int>& items) {
  for (const int item : items) bonds.tie(items.front(), item);
}

bool is_firm(NetKind kind) { return kind == NetKind::mechanical || kind == NetKind::suction; }

// What no cut may part.
Bonds firm_bonds(const layout::Problem& problem, const Unit& unit, const std::vector<char>& inside) {
  Bonds bonds(problem.items.size());
  for (const int item : unit.items)
    for (const int other : {problem.items[at(item)].host, problem.items[at(item)].beside})
      if (other >= 0 && inside[at(other)]) bonds.tie(item, other);
  for (const layout::Net& net : problem.nets)
    if (is_firm(net.kind)) tie_all(bonds, members(problem, net, inside));
  return bonds;
}

void tie_assemblies(const layout::Problem& problem, const Unit& unit, Bonds& bonds) {
  std::map<int, int> first;
  for (const int item : unit.items)
    if (const int group = outermost(problem, problem.items[at(item)].group); group >= 0) bonds.tie(first.try_emplace(group, item).first->second, item);
}

std::vector<Unit> units_by(const Unit& unit, Bonds& bonds) {
  std::map<int, Unit> by_root;
  for (const int item : unit.items) {
    Unit& part = by_root[bonds.root(item)];
    part.branch = unit.branch;
    part.items.push_back(item);
  }
  std::vector<Unit> parts;
  for (auto& [root, part] : by_root) parts.push_back(std::move(part));
  return parts;
}

// Ties by ever fewer of the nets, the narrow ones last to go, until the unit falls apart.
std::vector<Unit> parted_along_nets(const Unit& unit, const Bonds& firm, const std::vector<std::vector<int>>& nets) {
  std::set<std::size_t> widths;
  for (const auto& items : nets) widths.insert(items.size());
  for (auto most = widths.rbegin(); most != widths.rend(); ++most) {
    Bonds bonds = firm;
    for (const auto& items : nets)
      if (items.size() < *most) tie_all(bonds, items);
    if (std::vector<Unit> parts = units_by(unit, bonds); parts.size() > 1) return parts;
  }
  return {unit};
}

}  // namespace

std::vector<Unit> units_of(const layout::Problem& problem) {
  const std::vector<int> branches = layout::branches_of(problem);
  std::map<int, Unit> by_branch;
  for (std::size_t i = 0; i < branches.size(); ++i) {
    Unit& unit = by_branch[branches[i]];
    unit.branch = branches[i];
    unit.items.push_back(static_cast<int>(i));
  }
  std::vector<Unit> units;
  for (auto& [branch, unit] : by_branch) units.push_back(std::move(unit));
  return units;
}

std::vector<Unit> parted(const layout::Problem& problem, const Unit& unit) {
  std::vector<char> inside(problem.items.size(), 0);
  for (const int item : unit.items) inside[at(item)] = 1;
  std::vector<std::vector<int>> nets;
  for (const layout::Net& net : problem.nets)
    if (auto items = members(problem, net, inside); items.size() > 1 && !is_firm(net.kind)) nets.push_back(std::move(items));
  const Bonds firm = firm_bonds(problem, unit, inside);
  Bonds assemblies = firm;
  tie_assemblies(problem, unit, assemblies);
  if (std::vector<Unit> parts = parted_along_nets(unit, assemblies, nets); parts.size() > 1) return parts;
  return parted_along_nets(unit, firm, nets);
}

int cost_of_cut(const layout::Problem& problem, const std::vector<Unit>& units, std::size_t cut) {
  std::vector<char> side(problem.items.size(), 0);   // 1 before, 2 after, 4 the supply
  for (std::size_t u = 0; u < units.size(); ++u)
    for (const int item : units[u].items) side[at(item)] = static_cast<char>((u < cut ? 1 : 2) | (units[u].branch == 0 ? 4 : 0));
  int cost = 0;
  for (const layout::Net& net : problem.nets) {
    int met = 0;
    for (const layout::End& end : net.ends) met |= problem.items[at(end.item)].trough ? 0 : side[at(end.item)];
    cost += met == 3;
  }
  std::map<int, int> groups;
  for (std::size_t i = 0; i < side.size(); ++i)
    if (const int group = outermost(problem, problem.items[i].group); group >= 0) groups[group] |= side[i] & 3;
  for (const auto& [group, met] : groups) cost += met == 3;
  return cost;
}

}  // namespace ferrule::set
