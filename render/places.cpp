#include "render/places.hpp"

#include <algorithm>
#include <map>

namespace ferrule {
namespace {

using sheet::Rect;

constexpr double air = 10;  // mm, so that what is gone to does not stick to the window's edge

std::string place_of(const std::string& sheet) { return "sheet " + sheet; }
std::string place_of(const std::string& sheet, const std::string& symbol) { return place_of(sheet) + " " + symbol; }

std::string finding_on(const std::string& sheet, int number) { return place_of(sheet) + " finding " + std::to_string(number); }

// A little above and left of what is gone to.
sheet::Point before(double x, double y) { return {std::max(0.0, x - air), std::max(0.0, y - air)}; }

void link(const Rect& box, const std::string& place, canvas::Canvas& canvas) { canvas.link({box.x, box.y}, box.w, box.h, place); }

// Its own symbols; a mark, a load or a sign of the reservoir is no component.
bool is_component(const DrawnSymbol& symbol) { return symbol.stands_for.empty() && symbol.kind != "xref" && symbol.kind != "tankmark"; }

using Branch = std::vector<const DrawnSymbol*>;

// With what it moves.
std::string words_of(int number, const Branch& branch) {
  if (number == 0) return "Supply";
  std::string words = "Branch " + std::to_string(number);
  const std::size_t bare = words.size();
  for (const DrawnSymbol* symbol : branch)
    if (symbol->tier == static_cast<int>(layout::Tier::actuator)) words += (words.size() == bare ? ": " : "; ") + symbol->title;
  return words;
}

void add_bookmarks(const DrawnSheet& page, const Drawing& drawing, canvas::Canvas& canvas) {
  canvas.bookmark(page.id + " " + (page.title.empty() ? drawing.title : page.title), place_of(page.id), 0);
  std::map<int, Branch> branches;
  for (const DrawnSymbol& symbol : page.symbols)
    if (is_component(symbol)) branches[symbol.branch].push_back(&symbol);
  if (!page.findings.empty()) canvas.bookmark("Findings", place_of(page.id), 1);
  for (const DrawnFinding& finding : page.findings)
    canvas.bookmark(std::to_string(finding.number) + " " + finding.title, finding_on(page.id, finding.number), 2);
  for (const auto& [number, branch] : branches) {
    canvas.bookmark(words_of(number, branch), place_of(page.id, branch.front()->id), 1);
    for (const DrawnSymbol* symbol : branch) {
      canvas.bookmark(symbol->title, place_of(page.id, symbol->id), 2);
      for (const std::string& inside : symbol->parts) canvas.bookmark(inside, place_of(page.id, symbol->id), 2);
    }
  }
}

}  // namespace

void add_places(const DrawnSheet& page, const Drawing& drawing, canvas::Canvas& canvas) {
  canvas.place(place_of(page.id), {0, 0});
  for (const DrawnSymbol& symbol : page.symbols)
    canvas.place(place_of(page.id, symbol.id), before(symbol.box.x, symbol.box.y));
  for (const DrawnFinding& finding : page.findings) {
    const sheet::Point at = finding.flags.empty() ? sheet::Point{} : finding.flags.front().at;
    canvas.place(finding_on(page.id, finding.number), before(at.x, at.y));
  }
  for (const DrawnReference& reference : page.references)
    for (const DrawnSymbol& symbol : page.symbols)
      if (symbol.id == reference.symbol) link(symbol.box, place_of(reference.partner_sheet, reference.partner_symbol), canvas);
  for (const DrawnPart& part : page.parts)
    if (!part.sheet.empty()) link(part.box, place_of(part.sheet, part.symbol), canvas);
  for (const DrawnIndexRow& row : page.index) link(row.box, place_of(row.sheet), canvas);
  add_bookmarks(page, drawing, canvas);
}

}  // namespace ferrule
