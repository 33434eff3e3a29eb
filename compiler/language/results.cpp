#include "compiler/language/results.hpp"

#include <algorithm>

namespace ferrule {
namespace {

namespace d = dimension;

constexpr ResultWord table[] = {
    {"time", d::time, d::time, "of a step, of an actuator in a step, of the cycle"},
    {"hold-time", d::time, d::time, "how long a charge of an accumulator lasts against the leakage"},
    {"speed", d::speed, d::rotation, "of a rod, out is positive; of a shaft"},
    {"travel", d::length, d::angle, "of an actuator in a step"},
    {"force", d::force, d::force, "that a cylinder can bring up"},
    {"torque", d::torque, d::torque, "that a motor can bring up"},
    {"load", d::force, d::torque, "that an actuator works against in a step"},
    {"margin", d::force, d::torque, "what force or torque is left over the load"},
    {"pressure", d::pressure, d::pressure, "at a port, gauge"},
    {"drop", d::pressure, d::pressure, "over a line or a part"},
    {"flow", d::flow, d::flow, "through a part or a port"},
    {"velocity", d::speed, d::speed, "mean velocity of the oil in a line; of a line function its greatest"},
    {"reynolds", d::none, d::none, "Reynolds number in a line"},
    {"power", d::power, d::power, "at a shaft, or given to a load; of the cycle its mean"},
    {"peak-power", d::power, d::power, "greatest power at the shafts in a cycle"},
    {"heat", d::power, d::power, "that a part gives to the oil; of the cycle its mean"},
    {"temperature", d::temperature, d::temperature, "of the oil when heat in and out balance"},
    {"viscosity", d::kinematic_viscosity, d::kinematic_viscosity, "of the oil at its temperature"},
    {"volume", d::volume, d::volume, "that a stroke takes, that an accumulator gives slowly"},
    {"fast-volume", d::volume, d::volume, "that an accumulator gives fast, after slow charging"},
    {"efficiency", d::none, d::none, "work over shaft power"},
};

}  // namespace

std::span<const ResultWord> result_words() { return table; }

const ResultWord* result_named(std::string_view word) {
  const auto found = std::find_if(std::begin(table), std::end(table), [&](const ResultWord& row) { return row.word == word; });
  return found == std::end(table) ? nullptr : found;
}

}  // namespace ferrule
