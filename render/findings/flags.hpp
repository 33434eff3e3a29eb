// Free places for the numbers of findings. Internal to render/findings.
#pragma once

#include <span>

#include "render/drawing.hpp"

namespace ferrule {

// Everything on the page that a flag must stay clear of.
struct Obstacles {
  std::vector<sheet::Rect> solid;    // symbols, texts, other flags: neither disc nor leader may touch
  std::vector<sheet::Rect> lines;    // a leader may cross, a disc may not touch
};
Obstacles obstacles_on(const DrawnSheet& page);

// A disc near one of the frames with a leader from its edge: the nearest free place whose leader crosses the fewest lines. Earlier
// frames are preferred. The place found becomes an obstacle.
DrawnFinding::Flag flag_beside(std::span<const sheet::Rect> frames, Obstacles& obstacles, const Drawing& drawing);

}  // namespace ferrule
