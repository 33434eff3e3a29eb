// Damped Newton on one block of a network, the either-or pairs smoothed from coarse to fine.
//
// Unknown are the pressures and the flows of the branches. The flows of a branch are eliminated against the pressures
// around it, so that the matrix has one row per point; a shut valve is a conductance near nil, an ideal source a fixed flow.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "compiler/hydraulics/elimination.hpp"
#include "compiler/hydraulics/network.hpp"

namespace ferrule::hydraulics {

// The part of a network that is solved at once: branches, and the free points they join.
struct Block {
  std::vector<std::uint32_t> branches, points;
};

// How the smoothing is taken back: where it begins, by what it shrinks, and how many Newton steps are allowed.
struct Pace {
  double coarsest, finer_by;
  int steps_a_stage, steps_at_most;
  double pressure;  // bar, at every free point to begin with
};

class Descent {
 public:
  // `row_of_point` is scratch over all points of the network, all `not_a_row` on entry and on return.
  Descent(const Network& network, const Block& block, std::vector<std::uint32_t>& row_of_point);
  // Writes the block's pressures and flows into `whole`, and joins its residual, steps and verdict to those there.
  void run(Solution& whole);

  static constexpr std::uint32_t not_a_row = 0xffffffff;

 private:
  // A branch with its places in the arrays of the block.
  struct Place {
    const Branch* branch;
    std::uint32_t first_terminal, first_local, first_dp, first_dz, first_slot;
  };
  struct Values {
    std::vector<double> pressure;  // by terminal place: rows first, fixed points after
    std::vector<double> local, made_up;
  };

  void place_branches(const Block& block, std::vector<std::uint32_t>& row_of_point);
  void place_slots();
  void evaluate(const Values& at);
  void evaluate_points(const Values& at);
  void eliminate_locals();
  void assemble();
  bool linear_step(bool pivoted);
  void local_steps();
  bool advance(bool pivoted);
  bool stage();
  void start(const Pace& pace);
  bool descend(const Pace& pace);  // false when it does not settle
  bool settles();                  // at one of the paces
  bool stands_void(std::uint32_t row) const;  // below the pressure of the air though hardly anything is missing
  // Oil that is shut in without a load stood at tank pressure when it was shut in: only numerical leaks would empty it.
  void fill_what_stands();
  double merit() const;
  double largest() const;
  double leak() const;
  std::uint32_t row_at(const Place& place, std::uint32_t terminal) const {
    const std::uint32_t row = terminals_[place.first_terminal + terminal];
    return row < rows_ ? row : not_a_row;
  }

  const Network& net_;
  const Block& block_;
  std::uint32_t rows_ = 0;
  Pace pace_{};
  double mu_ = 0;
  double residual_left_ = 0;
  int steps_ = 0;
  std::vector<Place> places_;
  std::vector<AnyLaw> laws_;                     // by place: copies that lie side by side, for they are read at every step
  std::vector<std::uint32_t> terminals_;         // by place and terminal: index into pressure
  Values now_, next_;
  std::vector<double> floor_;                    // by row, bar: where the point becomes void
  Elimination matrix_;
  std::vector<std::uint32_t> slots_;             // by place, terminals squared; not_a_row where a point is fixed
  std::vector<double> residual_, dp_, dz_, local_step_, around_;
  std::vector<double> balance_, void_residual_, void_by_flow_, void_by_pressure_, step_, void_step_;  // by row
};

}  // namespace ferrule::hydraulics
