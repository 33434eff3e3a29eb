// The most pressure that a node can stand at while actuators are stalled: pump sources clamped by the reliefs surely attached.
#pragma once

#include <optional>
#include <vector>

#include "checks/machinery/rule.hpp"

namespace ferrule {

// By node, Pa gauge; none where a pump without a limit may reach it. Reducing valves limit what comes through them; beyond a
// node that is surely open to the reservoir only back pressure stands, given as 0.
std::vector<std::optional<double>> ceilings_of(const Solved& solved);

}  // namespace ferrule
