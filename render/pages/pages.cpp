#include "render/pages/pages.hpp"

#include <algorithm>

#include "render/pages/setting.hpp"

namespace ferrule::pages {
namespace {

using sheet::Inks;
using sheet::Rect;

constexpr Paper all_papers[] = {{"a4", 210, 297, 420, 297}, {"letter", 215.9, 279.4, 431.8, 279.4}};
constexpr double binding = 20, border = 10, head_row = 9, foot_row = 9, capital = 2.5, rule = 0.35;

std::string counted(const std::string& pattern, std::size_t page, std::size_t pages) {
  std::string text = pattern;
  for (const auto& [gap, value] : {std::pair{"{0}", page}, {"{1}", pages}})
    if (const auto at = text.find(gap); at != std::string::npos) text.replace(at, 3, std::to_string(value));
  return text;
}

Inks head_of(const Document& document, const Rect& room) {
  const double baseline = room.y - head_row + capital + 1, half = room.w * 0.65;
  Inks inks{sheet::words({room.x, baseline}, sheet::cut_to(document.title, half, capital), capital)};
  if (!document.number.empty())
    inks.push_back(sheet::words({room.right(), baseline}, sheet::cut_to(document.number, room.w - half - 4, capital), capital, sheet::Anchor::right));
  inks.push_back(sheet::line({{room.x, room.y - 4}, {room.right(), room.y - 4}}, rule));
  return inks;
}

Inks foot_of(const Document& document, const Rect& room, std::size_t page, std::size_t pages) {
  const double line = room.bottom() + 3.5, baseline = line + 1.5 + capital;
  Inks inks{sheet::line({{room.x, line}, {room.right(), line}}, rule)};
  if (!document.date.empty()) inks.push_back(sheet::words({room.x, baseline}, sheet::cut_to(document.date, room.w / 4, capital), capital));
  if (!document.note.empty())
    inks.push_back(sheet::words({room.x + room.w / 2, baseline}, sheet::cut_to(document.note, room.w / 2 - 8, capital), capital, sheet::Anchor::middle));
  inks.push_back(sheet::words({room.right(), baseline}, counted(document.page_of, page, pages), capital, sheet::Anchor::right));
  return inks;
}

void add_pages(const Section& section, const Paper& paper, std::vector<Page>& pages) {
  const Rect room = room_on(paper, section.wide);
  const Set set = set_blocks(section.blocks, room.w);
  for (const Standings& standings : broken(set.pieces, room.h)) {
    Page page{section.wide ? paper.wide_width : paper.width, section.wide ? paper.wide_height : paper.height, {}};
    for (const Standing& standing : standings) {
      Inks inks = set.inks[standing.piece];
      sheet::move(inks, {room.x, room.y + standing.top});
      sheet::append(page.inks, std::move(inks));
    }
    pages.push_back(std::move(page));
  }
}

}  // namespace

std::span<const Paper> papers() { return all_papers; }

std::optional<Paper> paper_named(std::string_view name) {
  const auto found = std::find_if(std::begin(all_papers), std::end(all_papers), [&](const Paper& paper) { return paper.name == name; });
  return found == std::end(all_papers) ? std::nullopt : std::optional(*found);
}

Rect room_on(const Paper& paper, bool wide) {
  const double width = wide ? paper.wide_width : paper.width, height = wide ? paper.wide_height : paper.height;
  return {binding, border + head_row, width - binding - border, height - 2 * border - head_row - foot_row};
}

std::vector<Page> pages_of(const Document& document, const Paper& paper) {
  std::vector<Page> pages;
  for (const Section& section : document.sections) add_pages(section, paper, pages);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const Rect room = room_on(paper, pages[i].width > paper.width);
    Inks inks = head_of(document, room);
    sheet::append(inks, std::move(pages[i].inks));
    sheet::append(inks, foot_of(document, room, i + 1, pages.size()));
    pages[i].inks = std::move(inks);
  }
  return pages;
}

Printed pdf_of(const Document& document, const std::vector<Page>& pages, long source_date_epoch) {
  const auto canvas = canvas::new_canvas(canvas::Format::pdf, {document.title, document.subject, {}, {}, source_date_epoch, 200, true});
  if (canvas == nullptr) return {{}, canvas::why_no_canvas()};
  for (std::size_t i = 0; i < pages.size(); ++i) {
    canvas->new_sheet(pages[i].width, pages[i].height, std::to_string(i + 1));
    sheet::paint(pages[i].inks, *canvas);
  }
  return {canvas->finish(), {}};
}

}  // namespace ferrule::pages
