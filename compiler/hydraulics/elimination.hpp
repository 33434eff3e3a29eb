// Gaussian elimination on a sparse matrix of symmetric pattern, in the order of least degree.
//
// Hydraulic circuits are nearly trees: in this order hardly a new entry appears, and a step costs about as many
// operations as the circuit has lines. (W. F. Tinney and J. W. Walker, Proc. IEEE 55, 1967, for electric networks.)
#pragma once

#include <cstdint>
#include <vector>

namespace ferrule::hydraulics {

class Elimination {
 public:
  Elimination() = default;
  // `neighbours` by row: the other rows it shares an entry with; made symmetric by the caller, sorted, without the row itself.
  explicit Elimination(std::vector<std::vector<std::uint32_t>> neighbours);

  std::size_t rows() const { return place_.size(); }
  // Where the entry of a row and a column is kept.
  std::uint32_t slot(std::uint32_t row, std::uint32_t column) const;
  std::vector<double>& entries() { return entries_; }
  // All entries of the pattern with row and column.
  template <class Use>
  void each_entry(Use use) const {
    for (const Pivot& pivot : pivots_) {
      use(pivot.row, pivot.row, entries_[pivot.row]);
      for (std::uint32_t i = pivot.first; i < pivot.first + pivot.count; ++i) {
        use(pivot.row, others_[i], entries_[rows() + 2 * i]);
        use(others_[i], pivot.row, entries_[rows() + 2 * i + 1]);
      }
    }
  }
  // Solves in place and destroys the entries; false when a pivot vanishes.
  bool solve(std::vector<double>& right_side);

 private:
  struct Pivot {
    std::uint32_t row;
    std::uint32_t first, count;   // its later neighbours in others_
    std::uint32_t first_update;   // in updates_: count * count slots
  };
  std::vector<std::uint32_t> place_;    // by row: its place in the order
  std::vector<Pivot> pivots_;           // in the order of elimination
  std::vector<std::uint32_t> others_;   // rows
  std::vector<std::uint32_t> updates_;
  std::vector<double> entries_;         // diagonal by row; then for others_[i] its upper at rows + 2i, lower at rows + 2i + 1
};

}  // namespace ferrule::hydraulics
