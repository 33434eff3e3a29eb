#include "render/sections/section_page.hpp"

#include <algorithm>

namespace ferrule::sections {
namespace {

constexpr double page_width = 210, page_height = 297, margin = 20, figure_height = 55;
constexpr std::size_t per_sheet = 4;
constexpr std::string_view care[] = {
    "Shown in principle, not to scale; makers' valves differ. Never open a valve that may be",
    "under pressure: release the oil, lock out the drive, follow ISO 4413, local rules and the",
    "qualified person in charge.",
};

bool contains(const std::vector<std::string>& group, std::string_view port) { return std::find(group.begin(), group.end(), port) != group.end(); }
bool contains_tank(const std::vector<std::string>& group) {
  return std::any_of(group.begin(), group.end(), [](const std::string& port) { return port.starts_with('T'); });
}

// Two columns.
void paint_legend(canvas::Canvas& paper, double y) {
  constexpr Oil shown[] = {Oil::pressed, Oil::circulates, Oil::returns, Oil::shut_in};
  for (std::size_t i = 0; i < std::size(shown); ++i) {
    const double x = margin + (i % 2 ? (page_width - 2 * margin) / 2 : 0), line = y + (i < 2 ? 0 : 6);
    paint_sample(paper, shown[i], {x, line - 3.2}, 8, 4);
    paper.text({x + 10, line}, words_of(shown[i]), {2.5, canvas::Anchor::left, false});
  }
}

void begin_sheet(canvas::Canvas& paper, const SectionPage& page, std::size_t number, std::size_t of) {
  paper.new_sheet(page_width, page_height, std::to_string(number));
  paper.text({margin, 20}, page.title, {5, canvas::Anchor::left, false});
  paper.text({margin, 27}, page.subtitle, {2.5, canvas::Anchor::left, false});
  if (of > 1) paper.text({page_width - margin, 20}, "sheet " + std::to_string(number) + " of " + std::to_string(of), {2.5, canvas::Anchor::right, false});
  paint_legend(paper, 262);
  double y = 276;
  for (const std::string_view line : care) {
    paper.text({margin, y}, line, {2.5, canvas::Anchor::left, false});
    y += 4.5;
  }
}

}  // namespace

Now assumed(const PositionTable& table, std::size_t position) {
  Now now;
  for (const std::string& port : table.ports) {
    std::vector<std::string> group{port};
    for (const auto& joined : table.joined[position])
      if (contains(joined, port)) group = joined;
    const bool fed = contains(group, "P"), off = contains_tank(group);
    now.ports.push_back({port, fed && off ? Oil::circulates : fed ? Oil::pressed : off ? Oil::returns : Oil::shut_in, 0});
  }
  return now;
}

void paint_page(canvas::Canvas& paper, const Spool& spool, const Part& valve, const SectionPage& page) {
  std::vector<Section> figures;
  for (std::size_t p = 0; p < page.positions.size(); ++p) figures.push_back(section_of(spool, valve, p, page.positions[p].now));
  double left = 0, right = 0;
  for (const Section& figure : figures) left = std::min(left, figure.left), right = std::max(right, figure.right);
  const double width = right - left + 8, scale = std::min(1.0, (page_width - 2 * margin) / width);
  const std::size_t sheets = (figures.size() + per_sheet - 1) / per_sheet;
  for (std::size_t p = 0; p < figures.size(); ++p) {
    if (p % per_sheet == 0) begin_sheet(paper, page, p / per_sheet + 1, sheets);
    const double top = 36 + static_cast<double>(p % per_sheet) * figure_height;
    paper.text({margin, top}, page.positions[p].caption, {3.5, canvas::Anchor::left, false});
    paper.text({page_width - margin, top}, page.positions[p].where, {2.5, canvas::Anchor::right, false});
    paint_section(paper, figures[p], {margin + (4 - left) * scale, top + 29}, scale);
  }
}

}  // namespace ferrule::sections
