// The balance of pressures along the way of the oil: from the pump through lines and valves to an actuator, and back.
#pragma once

#include "compiler/figures/book.hpp"

namespace ferrule::working {

// From where the oil of `node` comes: pump outlet (or store) down to it. None where nothing flows there.
std::optional<Way> way_to(const Moment& moment, NodeId node, std::string ends);
// Where the oil of `node` goes: to the reservoir.
std::optional<Way> way_from(const Moment& moment, NodeId node, std::string begins);
// Of a pump: from its outlet on, along the largest flow.
std::vector<Way> ways_from(const Moment& moment, ElementId pump);

}  // namespace ferrule::working
