// The equations of one state: points of equal pressure, branches between them. Units bar and L/min.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "compiler/hydraulics/laws.hpp"

namespace ferrule::hydraulics {

// A law between points. What a branch gives to a terminal is a fixed share of its own unknowns.
struct Branch {
  const AnyLaw* law = nullptr;  // stands elsewhere and outlives the network
  std::uint32_t first_terminal = 0, terminals = 0;
  std::uint32_t first_local = 0, locals = 0;
  std::uint32_t first_gives = 0;  // [terminals][locals]
  bool lasting = false;           // the law stands for all states of the circuit
};

struct Network {
  std::vector<double> fixed;             // by point: its pressure, or NaN where it is to be found
  std::vector<Branch> branches;
  std::vector<std::uint32_t> terminals;  // of all branches: points
  std::vector<double> gives;
  std::uint32_t locals = 0;

  std::size_t points() const { return fixed.size(); }
  bool is_fixed(std::uint32_t point) const { return fixed[point] == fixed[point]; }
  // `gives` is by terminal and own unknown: what flows into the terminal's point for each L/min of the unknown.
  std::uint32_t add(const AnyLaw* law, std::span<const std::uint32_t> points, std::uint32_t own, std::span<const double> gives);
  double given(const Branch& branch, std::uint32_t terminal, std::span<const double> unknowns) const;
};

// A solution, or how far one came.
struct Solution {
  std::vector<double> pressure;  // by point, bar
  std::vector<double> local;     // by unknown of the branches, L/min
  std::vector<double> made_up;   // by point, L/min: what vapour fills because no oil follows
  double residual = 0;           // largest imbalance left, L/min or bar
  int steps = 0;
  bool settled = false;
  std::vector<std::uint32_t> worst;  // branches with the largest residuals, when not settled
};

}  // namespace ferrule::hydraulics
