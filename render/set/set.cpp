#include "render/set/set.hpp"

#include "render/cycle.hpp"
#include "render/set/circuit_sheets.hpp"
#include "render/set/pages.hpp"
#include "render/set/parts.hpp"
#include "render/set/references.hpp"

namespace ferrule::set {
namespace {

using Pages = std::vector<DrawnSheet>;

void append(Pages& pages, Pages more) { pages.insert(pages.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end())); }

std::vector<DrawnIndexRow> index_of(const std::vector<CircuitSheet>& circuits, const Pages& lists, std::size_t first) {
  std::vector<DrawnIndexRow> rows;
  for (const CircuitSheet& sheet : circuits) rows.push_back({std::to_string(first++), sheet.name.title, sheet.name.contents, {}});
  for (const DrawnSheet& page : lists) {
    const std::string contents = page.parts.empty() ? "what every step switches, and what ends it" : page.parts.front().tag + " to " + page.parts.back().tag;
    rows.push_back({std::to_string(first++), page.title, contents, {}});
  }
  return rows;
}

struct Pagination {
  Pages cover, lists;
};

// How many pages the cover takes depends on the sheets, and their numbers on the cover.
Pagination paginated(CircuitSheets& circuits, const Making& making, const Sketch& sketch, const std::string& purpose, const sheet::Format& widest) {
  const std::string words = caution(making.circuit);
  for (std::size_t covers = 1;;) {
    std::size_t next = covers + 1;
    for (CircuitSheet& sheet : circuits.sheets) sheet.composed.page.id = std::to_string(next++);
    Pagination pages;
    if (const auto cycle = cycle_table(making.circuit)) pages.lists = pages_of_cycle(*cycle, words, widest);
    append(pages.lists, pages_of_parts(parts_of(making.circuit, sketch, circuits), words));
    pages.cover = pages_of_cover({making.drawing.title, purpose, words, index_of(circuits.sheets, pages.lists, covers + 1)}, making.drawing);
    if (pages.cover.size() == covers) return pages;
    covers = pages.cover.size();
  }
}

void number(Drawing& drawing, const sheet::TitleData& data) {
  sheet::TitleData title = data;
  title.sheets = static_cast<int>(drawing.sheets.size());
  title.sheet = 0;
  for (DrawnSheet& page : drawing.sheets) {
    page.id = std::to_string(++title.sheet);
    title.supplement = page.title;
    sheet::append(page.furniture, sheet::title_on(page.area, title, drawing.notes));
  }
}

}  // namespace

void add_set(Drawing& drawing, const Making& making, const Sketch& sketch, const SetWish& wish, const Refused& refused) {
  Making own = making;
  own.with_cycle = false;
  CircuitSheets circuits = circuit_sheets(own, sketch, wish.formats, drawing.notes);
  Pagination pages = paginated(circuits, own, sketch, wish.title.supplement, wish.formats.back());
  refer(circuits.sheets, sketch, drawing);
  append(drawing.sheets, std::move(pages.cover));
  for (CircuitSheet& sheet : circuits.sheets) {
    drawing.notes.insert(drawing.notes.end(), sheet.composed.notes.begin(), sheet.composed.notes.end());
    refused(sheet.piece.sketch, sheet.composed.refusals);
    sheet.composed.page.title = sheet.name.title;
    drawing.sheets.push_back(std::move(sheet.composed.page));
  }
  append(drawing.sheets, std::move(pages.lists));
  number(drawing, wish.title);
}

}  // namespace ferrule::set
