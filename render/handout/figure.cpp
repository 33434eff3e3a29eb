// A drawing as a figure on a page.
#include <fmt/format.h>

#include "render/handout/lesson.hpp"
#include "render/pages/setting.hpp"
#include "render/sheet/recorder.hpp"

namespace ferrule::handout {
namespace {

constexpr double air = 2;   // mm around the drawing: lines have a width

double height_of(const std::vector<pages::Block>& blocks, double width) {
  double height = 0;
  for (const pages::Piece& piece : pages::set_blocks(blocks, width).pieces) height += piece.before + piece.height;
  return height;
}

bool fits(const pages::Figure& figure, const sheet::Rect& room, double taken) {
  return figure.width <= room.w && figure.height + taken <= room.h;
}

void shrink(pages::Figure& figure, double factor) {
  sheet::scale(figure.inks, factor);
  figure.width *= factor;
  figure.height *= factor;
}

}  // namespace

pages::Figure figure_of(const Drawing& drawing, std::size_t sheet) {
  Drawing alone = drawing;
  alone.sheets = {drawing.sheets[sheet]};
  alone.sheets.front().furniture.clear();
  sheet::Recorder recorder;
  paint(alone, recorder);
  const sheet::Rect extent = sheet::extent_of(recorder.inks);
  sheet::move(recorder.inks, {air - extent.x, air - extent.y});
  return {std::move(recorder.inks), extent.w + 2 * air, extent.h + 2 * air};
}

pages::Section with_figure(const Lesson& lesson, const std::string& heading, pages::Figure figure, std::vector<pages::Block> below,
                           std::vector<std::string>& notes) {
  pages::Section section{{pages::Heading{heading, 1}}, false};
  const double head = 2 + height_of(section.blocks, pages::room_on(lesson.paper, false).w);
  section.wide = !fits(figure, pages::room_on(lesson.paper, false), head);
  const sheet::Rect room = pages::room_on(lesson.paper, section.wide);
  if (!fits(figure, room, head)) {
    const double factor = std::min(room.w / figure.width, (room.h - head) / figure.height);
    shrink(figure, factor);
    notes.push_back(fmt::format("{}: the drawing is printed at {:.0f} % of its size, so its letters are less than 2.5 mm high", heading, 100 * factor));
  }
  section.blocks.push_back(std::move(figure));
  for (pages::Block& block : below) section.blocks.push_back(std::move(block));
  return section;
}

}  // namespace ferrule::handout
