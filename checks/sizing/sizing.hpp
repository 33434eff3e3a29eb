// Sizes for a machine whose task is stated: bores, displacements, lines, drives, reservoir, cooler, each with its working and
// the text to paste. What is chosen is the smallest standard size that does what the circuit's states ask for.
//
// Sizes hang on each other (a bore changes flows, a flow changes lines), so they are found in stages: actuators, pumps, then
// lines, drives, reservoir and cooler; each stage computes the circuit anew with what the stage before has chosen.
#pragma once

#include <string>
#include <vector>

#include "checks/machinery/rule.hpp"
#include "checks/sizing/edits.hpp"
#include "checks/sizing/working.hpp"
#include "compiler/figures/book.hpp"

namespace ferrule::sizing {

struct Proposal {
  working::Worked working;     // its address says what is sized: "1A1 bore and rod"
  std::string now, chosen;     // "bore 63 mm, rod 36 mm"; `now` is empty for what the text does not state
  std::string source;          // where the sizes stand
  std::vector<Edit> edits;     // of the text of its stage; none when it stays as it is
  std::string why_none;        // why nothing is proposed; the rest is empty then
};

// One circuit, computed, as the functions of a stage read it.
struct Basis {
  const Compilation& compilation;
  std::string_view path;       // of the text that may be changed
  const Solved& solved;
  const working::Book& book;
  const Circuit& circuit() const { return compilation.circuit; }
};

// Stage 1. Bore and rod for the greatest load of all states at the pressure that comes to the piston when it stands; rod also
// against buckling (Euler, factor 3.5) where its mounting and buckling length are stated. Motors by torque.
std::vector<Proposal> actuator_sizes(const Basis& basis);
// Stage 2. Displacement for the flow that moves the actuators as fast as the text wants: a motion that states travel and time,
// `require` of a speed or a time; otherwise as fast as now, without what goes over relief valves.
std::vector<Proposal> pump_sizes(const Basis& basis);
// Stage 3. Bores by the speed limits of rule L-01 (checks/machinery/line_speeds.hpp), walls by the pressure that may stand there.
std::vector<Proposal> line_sizes(const Basis& basis);
// Pa that a tube of E235 stands without pulsation, DIN 2413 case I: 2 K s c / (S d), K 235 MPa, S 1.5, c what tolerances leave of
// the wall; a thick one by d + s c (form from memory: it gives the values of the usual tables). Both in m.
double tube_pressure(double outside, double wall);
std::vector<Proposal> drive_sizes(const Basis& basis);
// Three minutes of the pumps' flow and the oil that the rods displace (common practice; of a mobile machine one minute).
std::vector<Proposal> reservoir_sizes(const Basis& basis);
// What the walls of the reservoir do not give off at the temperature that the oil may have (stated, else 60 degC, ISO 4413).
std::vector<Proposal> cooler_sizes(const Basis& basis);

struct Sized {
  std::vector<Proposal> proposals;   // in the order of the stages, then of the text
  std::string text;                  // with everything pasted
  std::vector<ChangedLine> lines;    // to paste
  std::vector<std::string> outcome;  // what the pasted text comes to: requirements, actuators that stand, states without numbers
};

// The text compiles without an error; `path` is its name below the root of the project.
Sized sized(const Surroundings& surroundings, const std::string& path, const std::string& text);

}  // namespace ferrule::sizing
