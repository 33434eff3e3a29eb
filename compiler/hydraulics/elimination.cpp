#include "compiler/hydraulics/elimination.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace ferrule::hydraulics {
namespace {

using Rows = std::vector<std::uint32_t>;

void put(Rows& sorted, std::uint32_t row) {
  const auto at = std::lower_bound(sorted.begin(), sorted.end(), row);
  if (at == sorted.end() || *at != row) sorted.insert(at, row);
}

// Joins the neighbours of a removed row to each other. They are few, but a rail that is one of them has thousands of its own.
void join(std::vector<Rows>& neighbours, std::uint32_t removed, std::set<std::pair<std::size_t, std::uint32_t>>& queue) {
  const Rows& around = neighbours[removed];
  for (std::uint32_t row : around) {
    Rows& list = neighbours[row];
    queue.erase({list.size(), row});
    list.erase(std::lower_bound(list.begin(), list.end(), removed));
    for (std::uint32_t other : around)
      if (other != row) put(list, other);
    queue.insert({list.size(), row});
  }
}

}  // namespace

Elimination::Elimination(std::vector<Rows> neighbours) : place_(neighbours.size()) {
  std::set<std::pair<std::size_t, std::uint32_t>> queue;
  for (std::uint32_t row = 0; row < neighbours.size(); ++row) queue.insert({neighbours[row].size(), row});
  while (!queue.empty()) {
    const std::uint32_t row = queue.begin()->second;
    queue.erase(queue.begin());
    place_[row] = static_cast<std::uint32_t>(pivots_.size());
    pivots_.push_back({row, static_cast<std::uint32_t>(others_.size()), static_cast<std::uint32_t>(neighbours[row].size()), 0});
    others_.insert(others_.end(), neighbours[row].begin(), neighbours[row].end());
    join(neighbours, row, queue);
  }
  entries_.resize(rows() + 2 * others_.size());
  for (Pivot& pivot : pivots_) {
    pivot.first_update = static_cast<std::uint32_t>(updates_.size());
    for (std::uint32_t a = 0; a < pivot.count; ++a)
      for (std::uint32_t b = 0; b < pivot.count; ++b) updates_.push_back(slot(others_[pivot.first + a], others_[pivot.first + b]));
  }
}

std::uint32_t Elimination::slot(std::uint32_t row, std::uint32_t column) const {
  if (row == column) return row;
  const bool upper = place_[row] < place_[column];
  const Pivot& pivot = pivots_[upper ? place_[row] : place_[column]];
  const auto begin = others_.begin() + pivot.first, end = begin + pivot.count;
  const auto found = std::lower_bound(begin, end, upper ? column : row);
  return static_cast<std::uint32_t>(rows() + 2 * (found - others_.begin()) + (upper ? 0 : 1));
}

bool Elimination::solve(std::vector<double>& x) {
  const std::size_t base = rows();
  for (const Pivot& pivot : pivots_) {
    const double diagonal = entries_[pivot.row];
    if (!(std::fabs(diagonal) > 1e-30)) return false;
    const std::uint32_t* update = updates_.data() + pivot.first_update;
    for (std::uint32_t a = 0; a < pivot.count; ++a) {
      const double share = entries_[base + 2 * (pivot.first + a) + 1] / diagonal;
      for (std::uint32_t b = 0; b < pivot.count; ++b) entries_[*update++] -= share * entries_[base + 2 * (pivot.first + b)];
      x[others_[pivot.first + a]] -= share * x[pivot.row];
    }
  }
  for (auto pivot = pivots_.rbegin(); pivot != pivots_.rend(); ++pivot) {
    double value = x[pivot->row];
    for (std::uint32_t b = 0; b < pivot->count; ++b) value -= entries_[base + 2 * (pivot->first + b)] * x[others_[pivot->first + b]];
    x[pivot->row] = value / entries_[pivot->row];
  }
  return true;
}

}  // namespace ferrule::hydraulics
