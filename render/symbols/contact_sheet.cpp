// Every symbol and every valve row of the library on paper, so that people can look at them.
#include <algorithm>
#include <cmath>

#include "render/symbols/operators.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

constexpr double module_mm = 2, line_mm = 0.25, capital_mm = 1.8, port_capital_mm = 1.5, page_width = 420, page_height = 297, margin = 10, gap = 8;

struct Cell {
  Figure figure;
  Extent extent;
  double width = 0, height = 0;  // mm
};

Cell cell_of(Figure figure) {
  Cell cell{std::move(figure), {}, 0, 0};
  cell.extent = extent_of(cell.figure.strokes);
  for (const SymbolPort& port : cell.figure.ports) {  // the name of a port at a side stands outside
    const double name = canvas::measured(port.name, port_capital_mm).width / module_mm;
    if (port.side == Side::left) cell.extent.left = std::min(cell.extent.left, port.x - name);
    if (port.side == Side::right) cell.extent.right = std::max(cell.extent.right, port.x + name);
  }
  const double name = canvas::measured(cell.figure.name, capital_mm).width;
  cell.width = std::max((cell.extent.right - cell.extent.left) * module_mm, name) + gap;
  cell.height = (cell.extent.bottom - cell.extent.top) * module_mm + gap + 2 * capital_mm;
  return cell;
}

void draw_port(const SymbolPort& port, canvas::Point at, canvas::Canvas& canvas) {
  canvas.disc(at, 0.5);
  const bool below = port.side == Side::below, left = port.side == Side::left;
  const canvas::Point text{at.x + (left ? -0.8 : 0.8), at.y + (below ? capital_mm : -0.6)};
  canvas.text(text, port.name, {port_capital_mm, left ? canvas::Anchor::right : canvas::Anchor::left, false});
}

void draw_cell(const Cell& cell, canvas::Point corner, canvas::Canvas& canvas) {
  const canvas::Point origin{corner.x + gap / 2 - cell.extent.left * module_mm, corner.y + gap / 2 - cell.extent.top * module_mm};
  sheet::paint(inks_of(cell.figure, origin, module_mm, line_mm), canvas);
  for (const SymbolPort& port : cell.figure.ports)
    draw_port(port, {origin.x + port.x * module_mm, origin.y + port.y * module_mm}, canvas);
  canvas.text({corner.x, corner.y + cell.height - capital_mm / 2}, cell.figure.name, {capital_mm, canvas::Anchor::left, false});
}

// Fills sheet after sheet from the top left corner.
class Sheets {
 public:
  explicit Sheets(canvas::Canvas& canvas) : canvas_(canvas) {}
  void add(Figure figure) {
    const Cell cell = cell_of(std::move(figure));
    if (x_ + cell.width > page_width - margin) x_ = margin, y_ += row_, row_ = 0;
    if (page_ == 0 || y_ + cell.height > page_height - margin) {
      canvas_.new_sheet(page_width, page_height, std::to_string(++page_));
      x_ = y_ = margin;
      row_ = 0;
    }
    draw_cell(cell, {x_, y_}, canvas_);
    x_ += cell.width;
    row_ = std::max(row_, cell.height);
  }

 private:
  canvas::Canvas& canvas_;
  double x_ = margin, y_ = margin, row_ = 0;
  int page_ = 0;
};

int rest_of(const std::vector<PositionRow>& rows) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (std::any_of(rows[i].by.begin(), rows[i].by.end(), [](const Actuation& by) { return by.means.starts_with("spring"); })) return static_cast<int>(i);
  return -1;
}

Figure row_of(Library& library, const Definition& definition) {
  Row row;
  row.positions = definition.rows;
  row.rest = rest_of(definition.rows);
  row.continuous = acts_continuously(definition.rows);
  Figure figure = row_figure(library, row);
  figure.name = definition.name;
  return figure;
}

}  // namespace

void contact_sheet(Library& library, canvas::Canvas& canvas) {
  Sheets sheets(canvas);
  for (const std::string& name : library.symbol_names())
    if (const Symbol* symbol = library.symbol(name)) sheets.add(figure_of(library, *symbol));
  for (const std::string& name : library.definition_names())
    if (const Definition* definition = library.definition(name); definition && !definition->rows.empty()) sheets.add(row_of(library, *definition));
}

}  // namespace ferrule::symbols
