#include "render/set/division.hpp"

#include <algorithm>

namespace ferrule::set {
namespace {

// The supply is not mixed with branches.
std::size_t most_last(const std::vector<Unit>& units, std::size_t first) {
  std::size_t last = first + 1;
  while (last < units.size() && (units[last].branch == 0) == (units[first].branch == 0)) ++last;
  return last;
}

// The longest range that fits, looked for around the length of the one before; empty when not even one unit fits.
std::size_t longest(const std::vector<Unit>& units, std::size_t first, std::size_t guess, const Fits& fits) {
  const std::size_t most = most_last(units, first);
  std::size_t last = std::min(first + std::max<std::size_t>(guess, 1), most);
  while (last > first && !fits(units, {first, last})) --last;
  if (last < first + guess) return last;
  while (last < most && fits(units, {first, last + 1})) ++last;
  return last;
}

std::size_t best_cut(const layout::Problem& problem, const std::vector<Unit>& units, std::size_t first, std::size_t longest) {
  if (longest == most_last(units, first)) return longest;
  std::size_t best = longest;
  int least = cost_of_cut(problem, units, longest);
  for (std::size_t last = longest - 1; least > 0 && last > first && 2 * (last - first) >= longest - first; --last)
    if (const int cost = cost_of_cut(problem, units, last); cost < least) least = cost, best = last;
  return best;
}

std::vector<Unit> with_parts(std::vector<Unit> units, std::size_t at, const std::vector<Unit>& parts) {
  const auto here = units.erase(units.begin() + static_cast<std::ptrdiff_t>(at));
  units.insert(here, parts.begin(), parts.end());
  return units;
}

// Parts that fit, each for itself; nothing when one can't be made to.
std::vector<Unit> parted_to_fit(const layout::Problem& problem, const Unit& unit, const std::vector<Unit>& units, std::size_t at, const Fits& fits) {
  std::vector<Unit> parts = parted(problem, unit), result;
  if (parts.size() < 2) return {};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    std::vector<Unit> here = with_parts(units, at, parts);
    std::vector<Unit> smaller{parts[i]};
    if (!fits(here, {at + i, at + i + 1})) smaller = parted_to_fit(problem, parts[i], here, at + i, fits);
    if (smaller.empty()) return {};
    result.insert(result.end(), smaller.begin(), smaller.end());
  }
  return result;
}

std::vector<Unit> parts_of(const layout::Problem& problem, const std::vector<Unit>& units, std::size_t at, const Sizes& sizes) {
  std::vector<Unit> parts = parted_to_fit(problem, units[at], units, at, sizes.usual);
  if (parts.empty() && !sizes.larger(units, {at, at + 1})) parts = parted(problem, units[at]);
  return parts;
}

}  // namespace

Division divided(const layout::Problem& problem, std::vector<Unit> units, const Sizes& sizes) {
  Division division{std::move(units), {}};
  std::vector<Unit>& all = division.units;
  if (sizes.usual(all, {0, all.size()})) {
    division.sheets.push_back({0, all.size()});
    return division;
  }
  for (std::size_t first = 0, guess = 2; first < all.size();) {
    std::size_t last = longest(all, first, guess, sizes.usual);
    if (last == first) {
      if (const std::vector<Unit> parts = parts_of(problem, all, first, sizes); parts.size() > 1) {
        all = with_parts(all, first, parts);
        continue;
      }
      last = first + 1;
    }
    const std::size_t end = best_cut(problem, all, first, last);
    division.sheets.push_back({first, end});
    guess = end - first;
    first = end;
  }
  return division;
}

}  // namespace ferrule::set
