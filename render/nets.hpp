// The drawn nets of a circuit: what is joined by runs, pipes swallowed. A pipe is a line of the drawing, never a symbol.
//
// A reservoir is one hydraulic point but not one net: every line that ends in it is drawn for itself.
#pragma once

#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule {

struct DrawnConnection {           // a line's end in a reservoir; one per place where a run names it
  PortId port;
};

struct NetEnd {
  PortId port;                     // of a component
  int connection = -1;             // or index into CircuitNets::connections
  LineFunction said = LineFunction::working;  // of the run that brought it in
};

struct NetLine {
  LineId line;
  std::vector<std::size_t> near;   // indices into ends: those that this line parts from the others; empty when it parts none
};

struct CircuitNet {
  LineFunction function = LineFunction::working;
  std::vector<NetEnd> ends;        // in the order of the text, each once
  std::vector<NetLine> lines;
};

struct CircuitNets {
  std::vector<DrawnConnection> connections;
  std::vector<CircuitNet> nets;    // in the order of the text; also nets with one end
};

CircuitNets nets_of(const Circuit& circuit);
// The port at an end, of a component or of a reservoir.
PortId port_of(const CircuitNets& nets, const NetEnd& end);

}  // namespace ferrule
