// Tables: column widths from their words, rows as pieces, the head again on every page.
#include <algorithm>
#include <numeric>

#include "render/pages/setting.hpp"

namespace ferrule::pages {
namespace {

using sheet::Inks;

constexpr double capital = 2.5, usual_inset = 2, tight_inset = 1, usual_row = 7, outer = 0.5, inner = 0.25, figure_air = 2;
constexpr std::size_t most_lines = 24;                      // of one cell: what is longer is cut
constexpr canvas::Colour head_grey{230, 230, 230};          // 10 % grey behind black words survives a copier

double width_of(const std::string& words) { return canvas::measured(words, capital).width; }

double longest_word(const std::string& text) {
  double widest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    widest = std::max(widest, width_of(text.substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

std::vector<double> widths_of(const Table& table, double room, double inset) {
  const std::size_t count = table.columns.size();
  std::vector<double> liked(count, 0), least(count, 0);
  const auto cell = [&](std::size_t c, const std::string& text, double figure) {
    liked[c] = std::max({liked[c], width_of(text) + 2 * inset, figure > 0 ? figure + 2 * figure_air : 0});
    least[c] = std::max({least[c], std::min(longest_word(text), room / 3) + 2 * inset, figure > 0 ? figure + 2 * figure_air : 0});
  };
  for (std::size_t c = 0; c < count; ++c) {
    cell(c, table.columns[c].head, 0);
    liked[c] = std::max(liked[c], table.columns[c].least);
    least[c] = std::max(least[c], table.columns[c].least);
    for (const auto& row : table.rows) cell(c, row[c].text, row[c].figure.width);
  }
  return shared_widths(liked, least, room);
}

std::vector<std::string> lines_in(const std::string& text, double width, double inset) {
  std::vector<std::string> lines = lines_of(text, width - 2 * inset + 1e-6, capital);
  if (lines.size() > most_lines) {
    lines.resize(most_lines);
    lines.back() = "...";
  }
  return lines;
}

double height_of(const Cell& cell, double width, double inset) {
  if (cell.figure.width > 0) return cell.figure.height + 2 * figure_air;
  return static_cast<double>(lines_in(cell.text, width, inset).size() - 1) * pitch_of(capital) + usual_row;
}

void put_words(const Cell& cell, const Column& column, const sheet::Rect& box, double inset, Inks& inks) {
  const auto lines = lines_in(cell.text, box.w, inset);
  const double high = capital + static_cast<double>(lines.size() - 1) * pitch_of(capital);
  double baseline = box.y + (box.h - high) / 2 + capital;
  for (const std::string& line : lines) {
    const sheet::Point at{column.centred ? box.x + box.w / 2 : box.x + inset, baseline};
    if (!line.empty()) inks.push_back(sheet::words(at, line, capital, column.centred ? sheet::Anchor::middle : sheet::Anchor::left));
    baseline += pitch_of(capital);
  }
}

void put_cell(const Cell& cell, const Column& column, const sheet::Rect& box, double inset, Inks& inks) {
  if (cell.figure.width <= 0) return put_words(cell, column, box, inset, inks);
  Inks figure = cell.figure.inks;
  sheet::move(figure, {box.x + (box.w - cell.figure.width) / 2, box.y + (box.h - cell.figure.height) / 2});
  sheet::append(inks, std::move(figure));
}

struct Row {
  Inks inks;
  double height = 0;
};

// With its own strokes above, below and between, so that a row that begins or ends a page has them too.
Row set_row(const std::vector<Cell>& cells, const Table& table, const std::vector<double>& widths, double inset, bool head, bool last) {
  Row row{{}, head ? 0 : table.least_row};
  for (std::size_t c = 0; c < cells.size(); ++c) row.height = std::max(row.height, height_of(cells[c], widths[c], inset));
  double width = 0;
  for (const double one : widths) width += one;
  if (head) {
    sheet::Ink grey = sheet::outline({0, 0, width, row.height}, 0);
    grey.kind = sheet::Ink::Kind::filled;
    grey.colour = head_grey;
    row.inks.push_back(grey);
  }
  double left = 0;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    put_cell(cells[c], table.columns[c], {left, 0, widths[c], row.height}, inset, row.inks);
    row.inks.push_back(sheet::line({{left, 0}, {left, row.height}}, c == 0 ? outer : inner));
    left += widths[c];
  }
  row.inks.push_back(sheet::line({{width, 0}, {width, row.height}}, outer));
  row.inks.push_back(sheet::line({{0, 0}, {width, 0}}, head ? outer : inner));
  row.inks.push_back(sheet::line({{0, row.height}, {width, row.height}}, head || last ? outer : inner));
  return row;
}

}  // namespace

void set_table(const Table& table, double width, Set& set) {
  double inset = usual_inset;
  std::vector<double> widths = widths_of(table, width, inset);
  if (std::accumulate(widths.begin(), widths.end(), 0.0) > width + 1e-6) widths = widths_of(table, width, inset = tight_inset);
  std::vector<Cell> heads;
  for (const Column& column : table.columns) heads.push_back({column.head, {}});
  Row head = set_row(heads, table, widths, inset, true, false);
  const int head_piece = static_cast<int>(set.pieces.size());
  set.pieces.push_back({head.height, 2, true, -1});
  set.inks.push_back(std::move(head.inks));
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    Row row = set_row(table.rows[i], table, widths, inset, false, i + 1 == table.rows.size());
    const bool leads_on = table.with_next && i + 1 == table.rows.size();
    set.pieces.push_back({row.height, 0, leads_on || stays_with_next(i, table.rows.size()), head_piece});
    set.inks.push_back(std::move(row.inks));
  }
}

}  // namespace ferrule::pages
