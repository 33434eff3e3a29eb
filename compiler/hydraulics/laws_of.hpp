// The law of each kind of element, its data read and put into the solver's units.
#pragma once

#include <optional>

#include "compiler/hydraulics/laws.hpp"
#include "compiler/hydraulics/reading.hpp"

namespace ferrule::hydraulics {

// The largest flow that all pumps together can deliver, L/min: scale of the defaults that have no rated flow.
double pump_flow(Reading& reading);

Loss loss_of(Reading& reading, const Element& element, double scale_flow);
Pipe pipe_of(Reading& reading, const Element& element);
OneWay one_way_of(Reading& reading, const Element& element, double scale_flow);
PressurePath relief_of(Reading& reading, const Element& element, double scale_flow);
PressurePath reducing_of(Reading& reading, const Element& element, double scale_flow);
PilotedOneWay piloted_of(Reading& reading, const Element& element, double scale_flow);
std::optional<RegulatedFlow> regulated_of(Reading& reading, const Element& element);  // none when set to nil
// Displaced volume times speed, L/min at full or commanded stroke; negative when swung over centre.
double theoretical_flow(Reading& reading, const Element& element);
Pump pump_of(Reading& reading, const Element& element);

}  // namespace ferrule::hydraulics
