// The only file that sees Eigen.
#include "compiler/hydraulics/pivoted.hpp"

#include <Eigen/SparseCore>
#include <Eigen/SparseLU>

namespace ferrule::hydraulics {

bool solve_pivoted(const Elimination& matrix, std::vector<double>& right_side) {
  const auto rows = static_cast<Eigen::Index>(matrix.rows());
  std::vector<Eigen::Triplet<double>> triplets;
  matrix.each_entry([&](std::uint32_t row, std::uint32_t column, double entry) { triplets.emplace_back(row, column, entry); });
  Eigen::SparseMatrix<double> sparse(rows, rows);
  sparse.setFromTriplets(triplets.begin(), triplets.end());
  const Eigen::SparseLU<Eigen::SparseMatrix<double>> lu(sparse);
  if (lu.info() != Eigen::Success) return false;
  const Eigen::Map<Eigen::VectorXd> right(right_side.data(), rows);
  const Eigen::VectorXd solved = lu.solve(right);
  std::copy(solved.begin(), solved.end(), right_side.begin());
  return true;
}

}  // namespace ferrule::hydraulics
