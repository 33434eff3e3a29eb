// What a circuit does, state by state, told so that it does not matter how the circuit is built.
//
// Two circuits that agree in every record do the same work: tags, order, layout and equivalent valves leave no trace here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/paths/paths.hpp"

namespace ferrule::marking {

enum class Moves : std::uint8_t { stands, free, out, in, turns_ab, turns_ba };
std::string_view word_of(Moves moves);  // "stands", "goes out", ...

// Why something stands; in the order of tightness. `spool`: it creeps, for a spool leaks; `seat`: it does not.
enum class Hold : std::uint8_t { nothing, spool, seat, pressed };

enum class Joined : std::uint8_t { no, by_pressure, open };

// One port of an actuator; ports are compared by their place among the actuator's ports (head end or A first).
struct PortRecord {
  PortId port;
  Joined fed = Joined::no, to_tank = Joined::no;
  bool throttled = false;              // what flows here passes an adjustable throttle or a flow control
  std::optional<double> pressure;      // Pa
};

struct ActuatorRecord {
  PartId part;
  Moves moves = Moves::stands;
  Hold hold = Hold::nothing;           // of what stands
  std::vector<PortRecord> ports;
  std::optional<double> speed, force;  // m/s or rad/s; N or N m at the limit
};

// How a running pump idles: at most 15 % of its limit or 15 bar, at its limit, or between.
enum class Idle : std::uint8_t { unloaded, partly, at_limit };

struct StateRecord {
  std::string name;
  StateClass state_class = StateClass::rest;
  bool settled = false;                // numbers and motions are known
  std::vector<ActuatorRecord> actuators;  // in the order of `Record::actuators`
  bool idles = false;                  // a pump runs and nothing is to move
  Idle idle = Idle::unloaded;
  double supply = 0, power = 0;        // Pa, the highest of the running pumps; W at the shafts
};

struct Record {
  std::vector<PartId> actuators;       // parts of the role `actuator`, in the order of the text
  std::vector<StateRecord> states;     // rest, steps or single actuations, then loss of power out of every step
};

// At most `most` states; each costs one solution.
Record record_of(const Circuit& circuit, std::size_t most = 40);

}  // namespace ferrule::marking
