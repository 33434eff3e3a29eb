// Every symbol of the library on paper, so that people can look at it.
#include <algorithm>
#include <cmath>

#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

constexpr double module_mm = 2, line_mm = 0.25, capital_mm = 1.8, page_width = 420, page_height = 297, margin = 10, gap = 8;

struct Cell {
  Figure figure;
  Extent extent;
  double width = 0, height = 0;  // mm
};

Cell cell_of(Figure figure) {
  Cell cell{std::move(figure), {}, 0, 0};
  cell.extent = extent_of(cell.figure.strokes);
  const double name = canvas::measured(cell.figure.name, capital_mm).width;
  cell.width = std::max((cell.extent.right - cell.extent.left) * module_mm, name) + gap;
  cell.height = (cell.extent.bottom - cell.extent.top) * module_mm + gap + 2 * capital_mm;
  return cell;
}

void draw_port(const SymbolPort& port, canvas::Point at, canvas::Canvas& canvas) {
  canvas.disc(at, 0.5);
  const bool below = port.side == Side::below, left = port.side == Side::left;
  const canvas::Point text{at.x + (left ? -0.8 : 0.8), at.y + (below ? capital_mm : -0.6)};
  canvas.text(text, port.name, {1.5, left ? canvas::Anchor::right : canvas::Anchor::left, false});
}

void draw_cell(const Cell& cell, canvas::Point corner, canvas::Canvas& canvas) {
  const canvas::Point origin{corner.x + gap / 2 - cell.extent.left * module_mm, corner.y + gap / 2 - cell.extent.top * module_mm};
  sheet::paint(inks_of(cell.figure, origin, module_mm, line_mm), canvas);
  for (const SymbolPort& port : cell.figure.ports)
    draw_port(port, {origin.x + port.x * module_mm, origin.y + port.y * module_mm}, canvas);
  canvas.text({corner.x, corner.y + cell.height - capital_mm / 2}, cell.figure.name, {capital_mm, canvas::Anchor::left, false});
}

}  // namespace

void contact_sheet(Library& library, canvas::Canvas& canvas) {
  double x = margin, y = margin, row = 0;
  int page = 0;
  for (const std::string& name : library.symbol_names()) {
    const Symbol* symbol = library.symbol(name);
    if (!symbol) continue;
    const Cell cell = cell_of(figure_of(library, *symbol));
    if (x + cell.width > page_width - margin) x = margin, y += row, row = 0;
    if (page == 0 || y + cell.height > page_height - margin) {
      canvas.new_sheet(page_width, page_height, std::to_string(++page));
      x = y = margin;
      row = 0;
    }
    draw_cell(cell, {x, y}, canvas);
    x += cell.width;
    row = std::max(row, cell.height);
  }
}

}  // namespace ferrule::symbols
