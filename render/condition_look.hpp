// How a line looks by how its oil is in a state: weight and pattern first, so that a copier keeps the difference; colour second.
#pragma once

#include "compiler/paths/paths.hpp"
#include "render/canvas/canvas.hpp"

namespace ferrule {

// The conditions of the paths; of those that are open to the reservoir a line may yet be under pressure before a throttle.
enum class LineState : std::uint8_t { fed, circulates, controlled, trapped, blocked, returned, drained, suction, open };

struct StateLook {
  LineState state;
  std::string_view name;               // class in an SVG
  std::string_view words;              // for the legend
  double widths = 1;                   // in widths of a usual line
  canvas::Pattern pattern = canvas::Pattern::solid;
  canvas::Colour colour;               // told apart with any colour vision: they differ in lightness as well
  bool hollow = false;                 // two thin lines: oil shut in between
};

// Of a hollow line, the part of its width that is left white.
inline constexpr double hollow_share = 0.45;

const StateLook& look_of(LineState state);

// `pressure` in Pa, NaN where there is none.
LineState line_state(Condition condition, double pressure);

}  // namespace ferrule
