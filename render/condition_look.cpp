#include "render/condition_look.hpp"

#include <algorithm>
#include <iterator>

namespace ferrule {
namespace {

using canvas::Pattern;

constexpr StateLook looks[] = {
    {LineState::fed, "fed", "fed: under pressure", 3.2, Pattern::solid, {160, 40, 20}, false},
    {LineState::circulates, "circulates", "fed and open to the reservoir", 2.4, Pattern::long_dash, {196, 122, 0}, false},
    {LineState::controlled, "controlled", "let off under control: under pressure", 2.4, Pattern::chain, {110, 85, 0}, false},
    {LineState::trapped, "trapped", "trapped: may hold pressure", 3.6, Pattern::solid, {96, 60, 140}, true},
    {LineState::blocked, "blocked", "blocked: nothing feeds it", 2.0, Pattern::dotted, {110, 110, 110}, false},
    {LineState::returned, "returned", "open to the reservoir", 1.4, Pattern::solid, {20, 100, 165}, false},
    {LineState::drained, "drained", "drain, open to the reservoir", 1.0, Pattern::drain, {20, 100, 165}, false},
    {LineState::suction, "suction", "suction", 1.0, Pattern::solid, {0, 125, 110}, false},
    {LineState::open, "open", "open to the air", 1.0, Pattern::solid, {110, 110, 110}, false},
};

// What flows home through lines, a valve and a filter stays below this (common practice); a throttle or a counterbalance
// valve holds more against it.
constexpr double most_back_pressure = 10e5;  // Pa

}  // namespace

const StateLook& look_of(LineState state) {
  return *std::find_if(std::begin(looks), std::end(looks), [&](const StateLook& look) { return look.state == state; });
}

LineState line_state(Condition condition, double pressure) {
  if (condition == Condition::returned && pressure > most_back_pressure) return LineState::controlled;
  constexpr std::pair<Condition, LineState> same[] = {
      {Condition::fed, LineState::fed},           {Condition::returned, LineState::returned}, {Condition::blocked, LineState::blocked},
      {Condition::trapped, LineState::trapped},   {Condition::drained, LineState::drained},   {Condition::open, LineState::open},
      {Condition::circulates, LineState::circulates}, {Condition::suction, LineState::suction}};
  return std::find_if(std::begin(same), std::end(same), [&](const auto& row) { return row.first == condition; })->second;
}

}  // namespace ferrule
