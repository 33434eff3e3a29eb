#include "render/sheet/list.hpp"

#include <algorithm>

namespace ferrule::sheet {
namespace {

constexpr double capital = 2.5, heading = 3.5, heading_height = 8, head_height = 7, pitch = 4, around_lines = 3, inset = 2;
constexpr double outer = 0.5, inner = 0.25;
constexpr std::size_t most_lines = 4;

std::vector<std::string> lines_of(const std::string& text, double width) {
  std::vector<std::string> lines = wrapped(text, width, capital);
  for (std::size_t i = most_lines; i < lines.size(); ++i) lines[most_lines - 1] += " " + lines[i];
  lines.resize(std::min(lines.size(), most_lines));
  for (std::string& line : lines) line = cut_to(line, width, capital);
  return lines;
}

// Plus signs are 3.5 mm high, so that they are seen across a workshop.
Ink centred(double x, double baseline, const std::string& text) {
  if (text != "+") return words({x, baseline}, text, capital, Anchor::middle);
  return words({x, baseline + (heading - capital) / 2}, text, heading, Anchor::middle);
}

using Cells = std::vector<std::vector<std::string>>;   // lines by column

Cells cells_of(const List& list, const std::vector<std::string>& row) {
  Cells cells;
  for (std::size_t i = 0; i < list.columns.size(); ++i) cells.push_back(lines_of(row[i], list.columns[i].width - 2 * inset));
  return cells;
}

double height_of(const Cells& cells) {
  std::size_t most = 1;
  for (const auto& lines : cells) most = std::max(most, lines.size());
  return static_cast<double>(most) * pitch + around_lines;
}

struct Writer {
  const List& list;
  Rect space;
  ListPage page;
  double y = 0;                // of the next row

  void begin(const Rect& on, std::size_t first) {
    space = on;
    page = {};
    page.first = first;
    page.inks.push_back(words({space.x, space.y + heading}, list.heading, heading));
    y = space.y + heading_height;
    Cells heads;
    for (const ListColumn& column : list.columns) heads.push_back({column.head});
    write(heads, head_height, outer);
  }

  double width() const {
    double sum = 0;
    for (const ListColumn& column : list.columns) sum += column.width;
    return sum;
  }

  bool has_room(double height) const { return page.rows.empty() || y + height <= space.bottom() + 0.01; }

  void write_row(const Cells& cells, double height) {
    page.rows.push_back({space.x, y, width(), height});
    write(cells, height, inner);
  }

  // With a line under it.
  void write(const Cells& cells, double height, double under) {
    double x = space.x;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const ListColumn& column = list.columns[i];
      double baseline = y + around_lines / 2 + capital + (pitch - capital) / 2;
      for (const std::string& line : cells[i]) {
        page.inks.push_back(column.centred ? centred(x + column.width / 2, baseline, line) : words({x + inset, baseline}, line, capital));
        baseline += pitch;
      }
      x += column.width;
    }
    y += height;
    page.inks.push_back(line({{space.x, y}, {space.x + width(), y}}, under));
  }

  ListPage finished() {
    const double top = space.y + heading_height;
    page.inks.push_back(outline({space.x, top, width(), y - top}, outer));
    double x = space.x;
    for (std::size_t i = 1; i < list.columns.size(); ++i) {
      x += list.columns[i - 1].width;
      page.inks.push_back(line({{x, top}, {x, y}}, inner));
    }
    page.bottom = y;
    return std::move(page);
  }
};

}  // namespace

std::vector<ListPage> list_pages(const List& list, const Rect& first, const Rect& next) {
  std::vector<ListPage> pages;
  Writer writer{list, {}, {}};
  writer.begin(first, 0);
  for (std::size_t i = 0; i < list.rows.size(); ++i) {
    const Cells cells = cells_of(list, list.rows[i]);
    const double height = height_of(cells);
    if (!writer.has_room(height)) {
      pages.push_back(writer.finished());
      writer.begin(next, i);
    }
    writer.write_row(cells, height);
  }
  pages.push_back(writer.finished());
  return pages;
}

}  // namespace ferrule::sheet
