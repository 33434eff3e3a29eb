// The laws of the elements as the solver sees them: one struct each, one file each. Units bar and L/min.
//
// A law states as many balances as it has unknowns of its own. All are monotone in flow, so that a flow can always be
// eliminated against the pressures around it. Terminals are in the order each struct names.
#pragma once

#include <variant>
#include <vector>

#include "compiler/hydraulics/equations.hpp"
#include "compiler/hydraulics/resistance.hpp"

namespace ferrule::hydraulics {

// loss.cpp: a - b. Own unknown: flow.
struct Loss {
  Resistance resistance;
};
void state(const Loss& law, const Equations& eq);

// pipe.cpp: a - b. Own unknown: flow.
struct Pipe {
  double velocity = 0;      // m/s per L/min
  double reynolds = 0;      // per L/min
  double head = 0;          // velocity head, bar per (L/min)^2
  double slenderness = 0;   // length / bore
  double losses = 0;
  double relative_roughness = 0;
  double lift = 0;          // bar, from a up to b
};
void state(const Pipe& law, const Equations& eq);
// Darcy friction factor: 64/Re below 2300, Colebrook-White above 4000, straight in Re between (hydraulics page 3).
double friction_factor(double reynolds, double relative_roughness);

// one_way.cpp: in > out. Own unknown: flow. Shut until in - out reaches cracking.
struct OneWay {
  double cracking = 0;
  Resistance open;
};
void state(const OneWay& law, const Equations& eq);

// piloted_one_way.cpp: in > out, sensed nodes. Own unknowns: flow forward, flow backward (or, closing, forward only).
struct PilotedOneWay {
  double cracking = 0;
  Resistance open;
  std::vector<double> pilot;  // by terminal: weight of its pressure in the opening (or closing) balance, bar
  bool closing = false;
};
void state(const PilotedOneWay& law, const Equations& eq);

// pressure_path.cpp: in > out, sensed nodes. Own unknown: flow.
struct PressurePath {
  double cracking = 0;         // weighted pressures at which it begins to open (reducing: to shut)
  double slope = 0;            // bar per L/min
  Resistance open;             // wide open
  std::vector<double> weight;  // by terminal
};
void state(const PressurePath& law, const Equations& eq);

// regulated_flow.cpp: in > out [excess]. Own unknowns: flow, and with a third terminal the excess.
struct RegulatedFlow {
  double set = 0, least_drop = 0;
};
void state(const RegulatedFlow& law, const Equations& eq);

// selector.cpp: one, two > out. Own unknowns: flow from one, flow from two.
struct Selector {};
void state(const Selector& law, const Equations& eq);

// pump.cpp: out, sensed nodes. Own unknowns: delivery, leakage.
struct Pump {
  double full = 0;             // L/min delivered at full stroke
  double leakage = 0;          // L/min, to the case (or within)
  double ceiling = 0;          // bar: where the stroke is nil
  double droop = 0;            // bar per L/min
  bool load_sensing = false;
  double margin = 0;           // bar over the sensed pressure
  double power = 0;            // bar L/min at the outlet; 0 without a power limit
  std::vector<double> weight;  // by terminal: of the sensed pressure
};
void state(const Pump& law, const Equations& eq);

// body.cpp: what moves as one (pistons of one rod or tie, a motor, a divider). Terminals: its chambers.
// Own unknowns: displaced flow outward, displaced flow inward; one of them nil.
struct Body {
  std::vector<double> area;    // by terminal, relative to the body's reference area; + drives outward
  double load_out = 0;         // bar on the reference area, resisting outward motion
  double load_in = 0;          // the same load while moving inward (equal unless it turns with the motion)
  double friction = 0;         // bar, against the motion
  double efficiency = 1;       // of force or torque
};
void state(const Body& law, const Equations& eq);

using AnyLaw = std::variant<Loss, Pipe, OneWay, PilotedOneWay, PressurePath, RegulatedFlow, Selector, Pump, Body>;

}  // namespace ferrule::hydraulics
