#include "checks/report/excerpt.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "checks/report/letters.hpp"

namespace ferrule {
namespace {

struct Cell {
  std::uint32_t byte;    // offset in the file
  std::size_t column;    // display column at which it begins
  std::size_t columns;
  std::string shown;
};

std::vector<Cell> cells_of(const LineText& line) {
  std::vector<Cell> cells;
  std::size_t column = 0;
  for (std::size_t at = 0; at < line.text.size();) {
    const Letter letter = letter_at(line.text, at);
    std::string shown = shown_letter(line.text, at, letter);
    const std::size_t columns = shown.size() > letter.bytes || letter.bad ? shown.size() : columns_of(letter.code);
    cells.push_back({line.begin + static_cast<std::uint32_t>(at), column, columns, std::move(shown)});
    column += columns;
    at += letter.bytes;
  }
  return cells;
}

// Display columns [first, last) of a place on its line; never empty, so that a place at the line's end has its letter too.
struct Stretch {
  std::size_t place, first, last;
};

std::size_t column_at(const std::vector<Cell>& cells, std::uint32_t byte) {
  const auto cell = std::find_if(cells.begin(), cells.end(), [&](const Cell& c) { return c.byte >= byte; });
  if (cell != cells.end()) return cell->column;
  return cells.empty() ? 0 : cells.back().column + cells.back().columns;
}

Stretch stretch_of(const std::vector<Cell>& cells, std::size_t place, Span span) {
  const std::size_t first = column_at(cells, span.begin);
  return {place, first, std::max(first + 1, column_at(cells, span.end))};
}

// The part of a line that is shown: [first, last) columns.
struct Window {
  std::size_t first, last;
};

Window window_for(const Stretch& stretch, std::size_t line_columns, std::size_t width) {
  if (line_columns <= width) return {0, line_columns + 1};
  // A third of the room stands before the place: what is written there usually says whose fact it is.
  const std::size_t first = stretch.first > width / 3 ? stretch.first - width / 3 : 0;
  return {first, first + width - 4};
}

std::string text_in(const std::vector<Cell>& cells, Window window) {
  std::string out = window.first ? ".." : "";
  for (const Cell& cell : cells)
    if (cell.column >= window.first && cell.column + cell.columns <= window.last) out += cell.shown;
  if (!cells.empty() && cells.back().column + cells.back().columns > window.last) out += "..";
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

void put_mark(std::vector<std::string>& rows, const Stretch& stretch, Window window) {
  const std::size_t shift = window.first ? 2 : 0;
  const std::size_t from = stretch.first - window.first + shift;
  const std::size_t until = std::min(stretch.last, window.last) - window.first + shift;
  std::string mark = letter_of(stretch.place);
  if (mark.size() < until - from) mark.append(until - from - mark.size(), '~');
  auto row = std::find_if(rows.begin(), rows.end(), [&](const std::string& r) { return r.empty() || r.size() < from; });
  if (row == rows.end()) row = rows.insert(rows.end(), "");
  row->resize(from, ' ');
  *row += mark;
}

std::vector<MarkedLine> marked(std::uint32_t number, std::vector<Stretch> stretches,
                               const std::vector<Cell>& cells, std::size_t width) {
  const std::size_t columns = cells.empty() ? 0 : cells.back().column + cells.back().columns;
  std::sort(stretches.begin(), stretches.end(), [](const Stretch& a, const Stretch& b) { return a.first < b.first; });
  std::vector<MarkedLine> out;
  Window window{0, 0};
  for (const Stretch& stretch : stretches) {
    if (out.empty() || stretch.last > window.last) {
      window = window_for(stretch, columns, width);
      out.push_back({number, text_in(cells, window), {}});
    }
    put_mark(out.back().marks, stretch, window);
  }
  return out;
}

}  // namespace

std::string letter_of(std::size_t place) {
  const std::string letter(1, static_cast<char>('A' + place % 26));
  return place < 26 ? letter : letter + std::to_string(place / 26 + 1);
}

std::vector<MarkedLine> marked_lines(const Source& source, std::uint32_t file, const std::vector<Place>& places, std::size_t width) {
  std::vector<std::pair<std::uint32_t, std::size_t>> by_line;  // line begin, place
  for (std::size_t i = 0; i < places.size(); ++i)
    if (places[i].span.file == file) by_line.emplace_back(line_around(source, places[i].span.begin).begin, i);
  std::stable_sort(by_line.begin(), by_line.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<MarkedLine> out;
  for (std::size_t i = 0; i < by_line.size();) {
    const LineText line = line_around(source, by_line[i].first);
    const std::vector<Cell> cells = cells_of(line);
    std::vector<Stretch> stretches;
    const std::uint32_t begin = by_line[i].first;
    for (; i < by_line.size() && by_line[i].first == begin; ++i)
      stretches.push_back(stretch_of(cells, by_line[i].second, places[by_line[i].second].span));
    for (MarkedLine& row : marked(position_of(source, begin).line, stretches, cells, width)) out.push_back(std::move(row));
  }
  return out;
}

}  // namespace ferrule
