// A drawing as a figure on a page.
#include <fmt/format.h>

#include "render/draw.hpp"
#include "render/handout/lesson.hpp"
#include "render/pages/setting.hpp"
#include "render/sheet/recorder.hpp"

namespace ferrule::handout {
namespace {

// Circuit and texts of a sheet, without frame, title block and tables.
pages::Figure figure_of(const Drawing& drawing, const DrawnSheet& page) {
  DrawnSheet alone = page;
  alone.furniture.clear();
  sheet::Recorder recorder;
  paint(alone, drawing, recorder);
  const sheet::Rect extent = sheet::extent_of(recorder.inks);
  sheet::move(recorder.inks, {-extent.x, -extent.y});
  return {std::move(recorder.inks), extent.w, extent.h};
}

void shrink(pages::Figure& figure, double factor) {
  sheet::scale(figure.inks, factor);
  figure.width *= factor;
  figure.height *= factor;
}

constexpr double head = 14;   // mm that a heading and the air behind it take

}  // namespace

double height_of(const std::vector<pages::Block>& blocks, double width) {
  double height = 0;
  for (const pages::Piece& piece : pages::set_blocks(blocks, width).pieces) height += piece.before + piece.height;
  return height;
}

std::vector<DrawnFigure> figures_of(const Lesson& lesson, const StateView* view, double below, std::vector<std::string>& notes) {
  const sheet::Rect plain = pages::room_on(lesson.paper, false), wide = pages::room_on(lesson.paper, true);
  const Room rooms[] = {{plain.w, plain.h - head - below}, {plain.w, plain.h - head}, {wide.w, wide.h - head - below}};
  if (const auto drawing = draw_alone(lesson.compilation, lesson.source, view, rooms)) {
    notes.insert(notes.end(), drawing->notes.begin(), drawing->notes.end());
    const DrawnSheet& page = drawing->sheets.front();
    return {{figure_of(*drawing, page), "", page.format.width > plain.w || page.format.height > plain.h - head}};
  }
  const Drawing drawing = draw(lesson.compilation, lesson.source, view);
  notes.insert(notes.end(), drawing.notes.begin(), drawing.notes.end());
  std::vector<DrawnFigure> figures;
  for (const DrawnSheet& page : drawing.sheets) {
    if (page.symbols.empty()) continue;
    figures.push_back({figure_of(drawing, page), page.title, true});
    pages::Figure& figure = figures.back().figure;
    const double factor = std::min(wide.w / figure.width, (wide.h - head) / figure.height);
    if (factor >= 1) continue;
    shrink(figure, factor);
    notes.push_back(fmt::format("a drawing is printed at {:.0f} % of its size: its letters are {:.1f} mm high", 100 * factor, drawing.capital_mm * factor));
  }
  return figures;
}

}  // namespace ferrule::handout
