#include "compiler/hydraulics/pivoted.hpp"

#include <Eigen/SparseCore>
#include <Eigen/SparseLU>

namespace ferrule::hydraulics {

bool solve_pivoted(Elimination& matrix, const Network& network, const std::vector<std::uint32_t>& row_of,
                   std::vector<double>& right_side) {
  constexpr std::uint32_t none = 0xffffffff;
  const auto rows = static_cast<Eigen::Index>(matrix.rows());
  std::vector<Eigen::Triplet<double>> triplets;
  for (std::uint32_t row = 0; row < matrix.rows(); ++row) triplets.emplace_back(row, row, matrix.entries()[row]);
  for (const Branch& branch : network.branches)
    for (std::uint32_t a = 0; a < branch.terminals; ++a)
      for (std::uint32_t b = 0; b < branch.terminals; ++b) {
        const std::uint32_t row = row_of[network.terminals[branch.first_terminal + a]];
        const std::uint32_t column = row_of[network.terminals[branch.first_terminal + b]];
        if (row != none && column != none && row != column)
          triplets.emplace_back(row, column, matrix.entries()[matrix.slot(row, column)]);
      }
  Eigen::SparseMatrix<double> sparse(rows, rows);
  sparse.setFromTriplets(triplets.begin(), triplets.end(), [](double, double entry) { return entry; });
  Eigen::SparseLU<Eigen::SparseMatrix<double>> lu(sparse);
  if (lu.info() != Eigen::Success) return false;
  const Eigen::Map<Eigen::VectorXd> right(right_side.data(), rows);
  const Eigen::VectorXd solved = lu.solve(right);
  Eigen::Map<Eigen::VectorXd>(right_side.data(), rows) = solved;
  return lu.info() == Eigen::Success;
}

}  // namespace ferrule::hydraulics
