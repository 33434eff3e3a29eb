// Heat by place, as bars that carry their value.
#include <fmt/format.h>

#include <algorithm>

#include "compiler/quantities/quantity.hpp"
#include "render/plots/frame.hpp"

namespace ferrule::plots {
namespace {

constexpr double bar_height = 4.5, bar_pitch = 7, value_width = 24;

double names_width(const working::HeatBars& bars, double most) {
  double width = 15;
  for (const auto& [place, watts] : bars.bars) width = std::max(width, width_of(place) + 3);
  return std::min(width, most);
}

}  // namespace

double heat_height(const working::HeatBars& bars) { return 12 + static_cast<double>(std::max<std::size_t>(1, bars.bars.size())) * bar_pitch; }

void heat_diagram(canvas::Canvas& paper, const Rect& place, const working::HeatBars& bars) {
  double all = 0, greatest = 0;
  for (const auto& [where, watts] : bars.bars) all += watts, greatest = std::max(greatest, watts);
  title(paper, place, bars.bars.empty() ? std::string("nothing heats the oil") : fmt::format("heat into the oil, {}: {}", bars.basis, shown({all, dimension::power})));
  const double names = names_width(bars, place.width * 0.45), room = place.width - names - value_width;
  double y = place.top + 9;
  for (const auto& [where, watts] : bars.bars) {
    const double left = place.left + names, right = left + watts / greatest * room;
    write(paper, {left - 2, y + bar_height / 2 + lettering / 2}, fitted(where, names - 2), canvas::Anchor::right);
    paper.polygon({{left, y}, {right, y}, {right, y + bar_height}, {left, y + bar_height}});
    write(paper, {right + 2, y + bar_height / 2 + lettering / 2}, shown({watts, dimension::power}));
    y += bar_pitch;
  }
  if (!bars.bars.empty()) paper.polyline({{place.left + names, place.top + 7.5}, {place.left + names, y - bar_pitch + bar_height + 1.5}}, outline);
}

}  // namespace ferrule::plots
