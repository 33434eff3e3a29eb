// Everything on a sheet as ink: lines by their kind, texts with their leaders, enclosures. Internal to render.
#pragma once

#include <string_view>

#include "render/drawing.hpp"

namespace ferrule {

// "pressure", "working", "return", "suction", "drain", "pilot", "mechanical".
std::string_view word_of(layout::NetKind kind);

sheet::Pattern pattern_of(layout::NetKind look, bool drain_like_pilot);

// As on a sheet that shows no state. Shafts and rods are two lines one module apart.
sheet::Inks inks_of(const DrawnPath& path, const Drawing& drawing);
sheet::Ink dot_at(sheet::Point at, const Drawing& drawing);

sheet::Inks inks_of(const DrawnLabel& label, const Drawing& drawing);
sheet::Inks inks_of(const DrawnGroup& group, const Drawing& drawing);

}  // namespace ferrule
