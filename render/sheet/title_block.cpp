#include "render/sheet/title_block.hpp"

#include <fmt/format.h>

namespace ferrule::sheet {
namespace {

constexpr double outer = 0.7, inner = 0.35, row_height = 9, centring_mark = 5;

struct Cell {
  std::string_view name;
  std::string text;
  double from, to;   // mm from the left edge
  int row;
  double capital;    // wished for; ISO 3098 series
  double kept = 0;   // mm at the right end without letters: the lower centring mark of an A4 sheet reaches into the cell
};

std::vector<Cell> cells_of(const TitleData& data) {
  return {{"Department", data.department, 0, 45, 0, 2.5},
          {"Technical reference", data.reference, 45, 90, 0, 2.5},
          {"Created by", data.created, 90, 135, 0, 2.5},
          {"Approved by", data.approved, 135, 180, 0, 2.5},
          {"Legal owner", data.owner, 0, 90, 1, 3.5},
          {"Document type", data.document_type, 90, 150, 1, 2.5},
          {"Status", data.status, 150, 180, 1, 2.5},
          {"Title", data.title, 0, 90, 2, 3.5},
          {"Identification number", data.number, 90, 180, 2, 3.5},
          {"Supplementary title", data.supplement, 0, 90, 3, 2.5, centring_mark},
          {"Rev.", data.revision, 90, 105, 3, 3.5},
          {"Date of issue", data.date, 105, 140, 3, 2.5},
          {"Lang.", data.language, 140, 155, 3, 2.5},
          {"Sheet", fmt::format("{} of {}", data.sheet, data.sheets), 155, 180, 3, 2.5}};
}

double next_smaller(double capital) { return capital > 2.5 ? 2.5 : 1.8; }

void lay_content(Inks& inks, const Cell& cell, Point corner, double least, std::vector<std::string>& notes) {
  const double width = cell.to - cell.from - 3 - cell.kept;
  double capital = cell.capital;
  while (capital > least && canvas::measured(cell.text, capital).width > width) capital = next_smaller(capital);
  std::vector<std::string> lines = wrapped(cell.text, width, capital);
  const double bottom = corner.y + row_height - 1.6;
  const bool room_for_two = capital < 2.5;
  if (lines.size() <= 1 || !room_for_two) {
    const std::string text = cut_to(cell.text, width, capital);
    if (text != cell.text) notes.push_back(fmt::format("\"{}\" is too long for the cell {} of the title block", cell.text, cell.name));
    inks.push_back(words({corner.x + 1.8, bottom}, text, capital));
    return;
  }
  if (lines.size() > 2) {
    notes.push_back(fmt::format("\"{}\" is too long for the cell {} of the title block", cell.text, cell.name));
    lines[1] += " " + lines[2];
  }
  inks.push_back(words({corner.x + 1.8, bottom - 2.3}, cut_to(lines[0], width, capital), capital));
  inks.push_back(words({corner.x + 1.8, bottom + 0.6}, cut_to(lines[1], width, capital), capital));
}

}  // namespace

Inks title_block(const TitleData& data, std::vector<std::string>& notes) {
  const Point corner{-title_width, -title_height};
  Inks inks{outline({corner.x, corner.y, title_width, title_height}, outer)};
  for (int row = 1; row < 4; ++row)
    inks.push_back(line({{corner.x, corner.y + row * row_height}, {0, corner.y + row * row_height}}, inner));
  for (const Cell& cell : cells_of(data)) {
    const Point at{corner.x + cell.from, corner.y + cell.row * row_height};
    if (cell.from > 0) inks.push_back(line({at, {at.x, at.y + row_height}}, inner));
    const bool two_lines = data.least_capital < 2.5 && cell.text.size() > 20 && wrapped(cell.text, cell.to - cell.from - 3 - cell.kept, data.least_capital).size() > 1;
    if (!two_lines || cell.name != "Supplementary title") inks.push_back(words({at.x + 1.2, at.y + 0.8 + data.least_capital}, std::string(cell.name), data.least_capital));
    lay_content(inks, cell, at, data.least_capital, notes);
  }
  return inks;
}

Inks title_on(const Rect& area, const TitleData& data, std::vector<std::string>& notes) {
  Inks inks = title_block(data, notes);
  move(inks, {area.right(), area.bottom()});
  return inks;
}

Panel caution_row(const std::string& text, double width) {
  constexpr double capital = 2.5, pitch = 4;
  const auto lines = wrapped(text, width - 6, capital);
  Panel panel{{}, width, static_cast<double>(lines.size()) * pitch + 3.6};
  panel.inks.push_back(outline({0, -panel.height, width, panel.height}, inner));
  for (std::size_t i = 0; i < lines.size(); ++i)
    panel.inks.push_back(words({3, -panel.height + 4.8 + static_cast<double>(i) * pitch}, lines[i], capital));
  return panel;
}

}  // namespace ferrule::sheet
