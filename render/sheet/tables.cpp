#include "render/sheet/tables.hpp"

#include <algorithm>

namespace ferrule::sheet {
namespace {

constexpr double capital = 2.5, heading = 3.5, row_height = 7, heading_height = 8;
constexpr double outer = 0.5, inner = 0.25;

double width_of(const std::string& text) { return text.empty() ? 0 : canvas::measured(text, capital).width; }

struct Column {
  std::string head;
  double width;
  bool centred;
};

std::vector<Column> columns_of(const CycleTable& table, double most_width) {
  double names = width_of("Name"), ends = 0;
  for (const auto& row : table.rows) {
    names = std::max(names, width_of(row.name));
    ends = std::max(ends, width_of(row.ends));
  }
  std::vector<Column> columns{{"Step", 14, true}, {"Name", names + 7, false}};
  for (std::size_t i = 0; i < table.signals.size(); ++i) {
    double widest = width_of(table.signals[i]);
    for (const auto& row : table.rows) widest = std::max(widest, width_of(row.marks[i]));
    columns.push_back({table.signals[i], std::max(9.0, widest + 4), true});
  }
  double total = 0;
  for (const Column& column : columns) total += column.width;
  const Column last{"Ends when", std::max(ends, width_of("Ends when")) + 7, false};
  if (ends > 0 && total + last.width <= most_width) columns.push_back(last);   // left out rather than cut
  else if (total > most_width) columns[1].width -= std::clamp(total - most_width, 0.0, std::max(0.0, columns[1].width - 22));   // the words give way, never the signs
  return columns;
}

std::string cell_of(const CycleTable& table, std::size_t row, std::size_t column) {
  if (column == 0) return std::to_string(row + 1);
  if (column == 1) return table.rows[row].name;
  if (column < 2 + table.signals.size()) return table.rows[row].marks[column - 2];
  return table.rows[row].ends;
}

// Plus signs are 3.5 mm high, so that they are seen across a workshop.
Ink cell_words(const Column& column, double left, double top, const std::string& text) {
  const double height = text == "+" ? heading : capital;
  const double baseline = top + row_height / 2 + height / 2;
  if (column.centred) return words({left + column.width / 2, baseline}, text, height, Anchor::middle);
  return words({left + 2.5, baseline}, cut_to(text, column.width - 4, capital), capital);
}

}  // namespace

Panel cycle_table(const CycleTable& table, double most_width) {
  const auto columns = columns_of(table, most_width);
  double width = 0;
  for (const Column& column : columns) width += column.width;
  const double rows = static_cast<double>(table.rows.size() + 1);
  const Rect grid{0, heading_height, width, rows * row_height};
  Panel panel{{words({1, heading_height - 2.4}, "Work cycle", heading), outline(grid, outer)}, width, grid.bottom()};
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const double y = grid.y + (row + 1) * row_height;
    panel.inks.push_back(line({{0, y}, {width, y}}, row == 0 ? outer : inner));
  }
  double left = 0;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (i > 0) panel.inks.push_back(line({{left, grid.y}, {left, grid.bottom()}}, inner));
    panel.inks.push_back(cell_words(columns[i], left, grid.y, columns[i].head));
    for (std::size_t row = 0; row < table.rows.size(); ++row)
      if (const std::string text = cell_of(table, row, i); !text.empty())
        panel.inks.push_back(cell_words(columns[i], left, grid.y + (row + 1) * row_height, text));
    left += columns[i].width;
  }
  return panel;
}

Panel note(const std::string& text, double width) {
  constexpr double pitch = 4;
  Panel panel;
  const auto lines = wrapped(text, width, capital);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    panel.inks.push_back(words({0, capital + static_cast<double>(i) * pitch}, lines[i], capital));
    panel.width = std::max(panel.width, width_of(lines[i]));
  }
  panel.height = static_cast<double>(lines.size()) * pitch;
  return panel;
}

Panel legend(const LineTypes& types) {
  struct Row {
    bool shown;
    Pattern pattern;
    const char* name;
  };
  const Row rows[] = {{true, Pattern::solid, "working, supply, return"},
                      {types.pilot, Pattern::pilot, "pilot, load signal"},
                      {types.drain, Pattern::drain, "drain"},
                      {types.chain, Pattern::chain, "enclosure of one unit"}};
  Panel panel{{words({0, heading}, "Lines", heading)}, 0, 10};
  for (const Row& row : rows) {
    if (!row.shown) continue;
    panel.inks.push_back(line({{0, panel.height}, {24, panel.height}}, 0.25, row.pattern));
    panel.inks.push_back(words({28, panel.height + capital / 2}, row.name, capital));
    panel.width = std::max(panel.width, 28 + width_of(row.name));
    panel.height += 5;
  }
  panel.height -= 3;
  return panel;
}

}  // namespace ferrule::sheet
