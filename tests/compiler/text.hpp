// Circuits as text for the tests of the compiler: one call compiles, messages come as lines.
#pragma once

#include <sstream>

#include "support/outside.hpp"

namespace ferrule::tests {

inline Outside& surroundings() {
  static Outside files;
  return files;
}

inline std::unique_ptr<Compilation> compiled(const std::string& text) { return compile(surroundings(), "main.fer", text); }

// "3:8 N-02 no part has the tag `9V1`" for each message, one a line.
inline std::string told(const Compilation& compilation) {
  std::ostringstream lines;
  for (const Message& message : compilation.messages) {
    const Span at = message.places[0].span;
    const Position place = position_of(compilation.sources[at.file], at.begin);
    lines << place.line << ':' << place.column << ' ' << message.code << ' ' << message.sentence << '\n';
  }
  return lines.str();
}
inline std::string told(const std::string& text) { return told(*compiled(text)); }

// A whole little machine; what a test is about is put behind it.
inline const std::string supply = R"(reservoir 0Z1 { volume 63 L, breather }
electric-motor 0M1 { power 5.5 kW, speed 1450 rpm }
fixed-pump 0P1 { displacement 16 cm3/rev, driven-by 0M1, rated 210 bar }
relief-valve 0V1 { cracking 150 bar, full-flow 160 bar at 24 L/min }
suction 0Z1 -- {hose DN 32, length 0.8 m} -- 0P1.S
return 0V1.T -- 0Z1
)";
inline const std::string machine = supply + R"(pressure 0P1.P -- 0V1.P
pressure 0V1.P -- {tube L7 16 x 2 mm, length 1.5 m} -- 1V1.P
working 1V1.A -- 1A1.A
working 1V1.B -- 1A1.B
return 1V1.T -- 0Z1
cylinder 1A1 { bore 63 mm, rod 36 mm, stroke 400 mm }
tandem-centre-valve 1V1 { a by solenoid 1Y1, b by solenoid 1Y2, drop 5 bar at 40 L/min, P-T drop 3 bar at 40 L/min }
)";

}  // namespace ferrule::tests
