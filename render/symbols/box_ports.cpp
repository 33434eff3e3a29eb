#include <algorithm>
#include <map>

#include "render/symbols/box.hpp"

namespace ferrule::symbols {
namespace {

// Ports above first, from left to right, then those below. Common practice for these sets of letters (ISO 9461).
struct Known {
  const char* above[3];
  const char* below[3];
};
constexpr Known known[] = {
    {{"A"}, {"P"}},           {{"A"}, {"P", "T"}},           {{"A", "B"}, {"P", "T"}}, {{"A", "B"}, {"T1", "P", "T2"}},
    {{"A", "C2", "B"}, {"P", "C1", "T"}}, {{"A", "B"}, {"LS", "P", "T"}}, {{"A", "B"}, {"T"}},     {{"P"}, {"T"}},
    {{"A"}, {"T"}},           {{"2"}, {"1"}},
};

using Names = std::vector<std::string>;

Names names_of(const char* const (&list)[3]) {
  Names names;
  for (const char* name : list)
    if (name) names.emplace_back(name);
  return names;
}

bool same(Names a, Names b) {
  std::sort(a.begin(), a.end());
  std::sort(b.begin(), b.end());
  return a == b;
}

Names joined(const Names& a, const Names& b) {
  Names both = a;
  both.insert(both.end(), b.begin(), b.end());
  return both;
}

bool numbered(const Names& names) {
  return std::all_of(names.begin(), names.end(), [](const std::string& n) { return n[0] >= '0' && n[0] <= '9'; });
}

// Of 1, 2, 3 the common one stands alone above: it is the way out that the valve serves.
std::string most_joined(const Names& names, const std::vector<PositionRow>& rows) {
  std::map<std::string, int> times;
  for (const PositionRow& row : rows)
    for (const RowPath& path : row.paths)
      for (const std::string& port : path.ports) ++times[port];
  return *std::max_element(names.begin(), names.end(), [&](const auto& a, const auto& b) { return times[a] < times[b]; });
}

bool looks_up(const std::string& name) { return name[0] == 'A' || name[0] == 'B' || name[0] == 'C' || name[0] == 'D'; }

std::pair<Names, Names> by_letter(const Names& names, const std::vector<PositionRow>& rows) {
  Names above, below;
  const std::string common = numbered(names) ? most_joined(names, rows) : "";
  for (const std::string& name : names) (name == common || looks_up(name) ? above : below).push_back(name);
  Names& full = above.empty() ? below : above;
  Names& empty = above.empty() ? above : below;
  while (empty.size() + 1 < full.size()) {
    empty.push_back(full.back());
    full.pop_back();
  }
  return {above, below};
}

std::pair<Names, Names> sides_of(const Names& names, const std::vector<PositionRow>& rows) {
  for (const Known& set : known) {
    const Names above = names_of(set.above), below = names_of(set.below);
    if (same(names, joined(above, below))) return {above, below};
  }
  return by_letter(names, rows);
}

void place(BoxPorts& box, const Names& names, std::size_t across, double y) {
  const std::size_t most = static_cast<std::size_t>(box.width) / 2;
  for (std::size_t i = 0; i < names.size(); ++i) {
    double x = 1 + 2 * static_cast<double>(i);
    if (names.size() == 1 && (across <= 1 || y > 0)) x = box.width / 2;  // alone: in the middle; A alone stands over P
    if (names.size() == 2 && most == 3) x = i == 0 ? 1 : 5;
    box.ports.push_back({names[i], x, y});
  }
}

}  // namespace

const BoxPorts::At* BoxPorts::find(const std::string& name) const {
  const auto found = std::find_if(ports.begin(), ports.end(), [&](const At& at) { return at.name == name; });
  return found == ports.end() ? nullptr : &*found;
}

BoxPorts box_ports(const std::vector<PositionRow>& rows) {
  Names names;
  for (const PositionRow& row : rows)
    for (const RowPath& path : row.paths)
      for (const std::string& port : path.ports)
        if (std::find(names.begin(), names.end(), port) == names.end()) names.push_back(port);
  BoxPorts box;
  if (names.empty()) return box;
  const auto [above, below] = sides_of(names, rows);
  box.width = std::max(4.0, 2.0 * static_cast<double>(std::max(above.size(), below.size())));
  place(box, above, below.size(), 0);
  place(box, below, above.size(), box.height);
  return box;
}

}  // namespace ferrule::symbols
