// What stayed where it was from one drawing to another, from the two geometries alone.
#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <vector>

#include "drawings/measure.hpp"

namespace measure {
namespace {

using Json = nlohmann::json;
using Point = std::pair<double, double>;
constexpr double apart = 0.5, equal = 0.02;

struct Sheet {
  std::map<std::string, Point> symbols;
  std::map<std::string, std::vector<Point>> nets;   // corners of all paths
};

std::map<std::string, Sheet> sheets_of(std::string_view geometry) {
  std::map<std::string, Sheet> sheets;
  const Json file = Json::parse(geometry);
  for (const Json& s : file["sheets"]) {
    Sheet& sheet = sheets[s["id"]];
    for (const Json& symbol : s["symbols"])
      sheet.symbols[symbol["id"]] = {double(symbol["x"]) + double(symbol["w"]) / 2, double(symbol["y"]) + double(symbol["h"]) / 2};
    for (const Json& net : s["nets"])
      for (const Json& path : net["paths"])
        for (const Json& point : path) sheet.nets[net["id"]].push_back({point[0], point[1]});
  }
  return sheets;
}

double median(std::vector<double> values) {
  if (values.empty()) return 0;
  std::nth_element(values.begin(), values.begin() + static_cast<long>(values.size() / 2), values.end());
  return values[values.size() / 2];
}

struct Count {
  long pairs = 0, kept = 0, symbols = 0, moved = 0, nets = 0, unchanged = 0;

  void pair(double before, double after) {
    if (std::abs(before) <= apart || std::abs(after) <= apart) return;
    ++pairs, kept += (before > 0) == (after > 0);
  }

  void sheet(const Sheet& before, const Sheet& after, double module) {
    std::vector<std::pair<Point, Point>> both;
    for (const auto& [id, at] : before.symbols)
      if (const auto found = after.symbols.find(id); found != after.symbols.end()) both.push_back({at, found->second});
    std::vector<double> dx, dy;
    for (const auto& [a, b] : both) dx.push_back(b.first - a.first), dy.push_back(b.second - a.second);
    const Point common{median(dx), median(dy)};
    for (std::size_t i = 0; i < both.size(); ++i) {
      const double off = std::max(std::abs(dx[i] - common.first), std::abs(dy[i] - common.second));
      ++symbols, moved += off > module + equal;
      for (std::size_t j = 0; j < i; ++j) {
        pair(both[i].first.first - both[j].first.first, both[i].second.first - both[j].second.first);
        pair(both[i].first.second - both[j].first.second, both[i].second.second - both[j].second.second);
      }
    }
    for (const auto& [id, corners] : before.nets)
      if (const auto found = after.nets.find(id); found != after.nets.end()) ++nets, unchanged += same(corners, found->second, common);
  }

  static bool same(const std::vector<Point>& before, const std::vector<Point>& after, Point common) {
    return std::equal(before.begin(), before.end(), after.begin(), after.end(), [&](const Point& a, const Point& b) {
      return std::abs(b.first - a.first - common.first) <= equal && std::abs(b.second - a.second - common.second) <= equal;
    });
  }
};

double share(long part, long whole, double otherwise) { return whole == 0 ? otherwise : double(part) / double(whole); }

}  // namespace

Kept kept(std::string_view before, std::string_view after, double module_mm) {
  const auto first = sheets_of(before), second = sheets_of(after);
  Count count;
  for (const auto& [id, sheet] : first)
    if (const auto found = second.find(id); found != second.end()) count.sheet(sheet, found->second, module_mm);
  return {share(count.kept, count.pairs, 1), share(count.moved, count.symbols, 0), share(count.unchanged, count.nets, 1)};
}

}  // namespace measure
