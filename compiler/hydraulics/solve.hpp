// The steady operating point of one state. Everything that a check or a report says in numbers comes from here.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "compiler/paths/paths.hpp"

namespace ferrule {

// A result or the reason why there is none; never an invented zero.
struct Result {
  std::optional<double> si;
  std::string why_none;
};

struct OperatingPoint {
  bool settled = false;                 // residuals below tolerance, no flow beyond all ratings; when false no number may be used
  double residual = 0;                  // largest scaled residual left
  std::vector<std::string> alternating; // names of elements that would not settle
  std::vector<double> pressure;         // by node, Pa gauge; NaN where trapped without load
  std::vector<double> flow;             // by element, m3/s from its first end to its second
  std::vector<double> aside;            // by element, m3/s given to its third end (case, excess, selected); 0 without one
  std::vector<double> speed;            // by element: piston m/s (+ out), displacement rad/s; NaN elsewhere
  std::vector<bool> trapped, voided;    // by node
  std::vector<std::string> notes;       // "2A1 and 1A1 share the flow: which moves first is left to friction"
  std::vector<std::string> defaults;    // data that were defaulted: "0V1 override 25 % (default)"
};

struct Oil {
  double density = 870;                 // kg/m3
  double kinematic_viscosity = 32e-6;   // m2/s
  bool by_default = true;
};
PartId first_reservoir(const Circuit& circuit);  // none where there is none
Oil oil_of(const Circuit& circuit, PartId reservoir);
// By node: the oil of the reservoir that it hangs together with, parted by nothing but pistons; else the first of the text.
// One for all nodes where the text knows one fluid at most.
std::vector<Oil> oils_of(const Circuit& circuit);

OperatingPoint solve(const Circuit& circuit, const State& state);

// For many states of one circuit: what they share is read once. The circuit outlives it.
class Solver {
 public:
  explicit Solver(const Circuit& circuit);
  ~Solver();
  Solver(Solver&&) noexcept;
  OperatingPoint at(const State& state) const;
  // By element, m3/s: what no state sends more than through a pipe, found without solving; infinite where that is not
  // proved and for all that is no pipe. (compiler/hydraulics/most_flows.hpp)
  std::vector<double> most_flows(const PassageGraph& graph, std::span<const State> states) const;

 private:
  struct Inside;
  std::unique_ptr<const Inside> inside_;
};

// The points of many states, each solved when it is first asked for. Circuit and states outlive it.
class Points {
 public:
  Points(const Circuit& circuit, std::span<const State> states);
  std::size_t size() const { return states_.size(); }
  const OperatingPoint& operator[](std::size_t state) const;
  const Solver& solver() const { return solver_; }

 private:
  std::span<const State> states_;
  Solver solver_;
  mutable std::vector<std::unique_ptr<const OperatingPoint>> known_;
};

}  // namespace ferrule
