// Findings marked on the sheet: each where it is, by a way that can be followed, with a number that touches nothing.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

#include "compiler/driver/findings_on_sheet.hpp"
#include "drawings/drawn.hpp"
#include "drawings/measure.hpp"
#include "drawings/pdf_reader.hpp"
#include "support/files.hpp"

using namespace ferrule;
using sheet::Point, sheet::Rect;

namespace {

Drawing with_findings(const std::string& text, const SheetWish& wish = {"fit", false}) {
  const auto made = drawn::compiled(text);
  Checked checked{&made->sources, "circuit.fer", "", check(made->circuit, "2026-01-01").messages, {}, {}};
  Drawing drawing = draw(*made, "circuit", nullptr, wish, findings_for_sheet(checked, made->circuit));
  drawn::check_read_back(*made, drawing);
  return drawing;
}

std::string bytes_of(const Drawing& drawing, std::string_view ending) { return files_of(drawing, ending).front().bytes; }

std::vector<std::string> bad_circuits() {
  std::vector<std::string> paths;
  for (const std::string& path : tests::files_below("checks", ".fer"))
    if (path.find("/bad") != std::string::npos) paths.push_back(path);
  for (const char* pair : {"idle-over-relief", "relief-behind-valve", "lines-too-narrow", "spring-cylinder-on-four-ports"})
    paths.push_back(std::string("samples/pairs/") + pair + ".fer");
  return paths;
}

// Least gap between two boxes, mm; negative when they overlap.
double gap(const Rect& a, const Rect& b) {
  return std::max(std::max(a.x - b.right(), b.x - a.right()), std::max(a.y - b.bottom(), b.y - a.bottom()));
}

std::vector<Rect> lines_of(const DrawnSheet& page) {
  std::vector<Rect> lines;
  for (const DrawnNet& net : page.nets)
    for (const DrawnPath& path : net.paths)
      for (std::size_t i = 1; i < path.points.size(); ++i) {
        const Point a = path.points[i - 1], b = path.points[i];
        lines.push_back({std::min(a.x, b.x), std::min(a.y, b.y), std::fabs(a.x - b.x), std::fabs(a.y - b.y)});
      }
  return lines;
}

bool lies_on_a_line(const DrawnSheet& page, Point a, Point b) {
  const Rect piece{std::min(a.x, b.x), std::min(a.y, b.y), std::fabs(a.x - b.x), std::fabs(a.y - b.y)};
  for (const Rect& line : lines_of(page))
    if (piece.x >= line.x - 0.01 && piece.right() <= line.right() + 0.01 && piece.y >= line.y - 0.01 && piece.bottom() <= line.bottom() + 0.01) return true;
  return false;
}

void check_flags(const DrawnSheet& page, const Drawing& drawing) {
  constexpr double touching = 0.3;  // mm, as for texts
  std::vector<Rect> discs;
  for (const DrawnFinding& finding : page.findings) {
    CHECK(finding.flags.size() == 1);
    for (const DrawnFinding::Flag& flag : finding.flags) {
      const Rect disc = box_of(flag, drawing);
      for (const DrawnSymbol& symbol : page.symbols) CHECK(gap(disc, symbol.box) >= touching);
      for (const DrawnLabel& label : page.labels) CHECK(gap(disc, label.box) >= touching);
      for (const Rect& line : lines_of(page)) CHECK(gap(disc, line) >= touching);
      for (const Rect& other : discs) CHECK(gap(disc, other) >= touching);
      for (int i = 0; i <= 20; ++i) {  // the leader
        const Point at{flag.foot.x + (flag.at.x - flag.foot.x) * i / 20, flag.foot.y + (flag.at.y - flag.foot.y) * i / 20};
        for (const DrawnLabel& label : page.labels) CHECK(gap({at.x, at.y, 0, 0}, label.box) > 0);
      }
      CHECK(gap(disc, page.area) < -2 * disc_radius(drawing) + 0.01);  // wholly on the sheet
      discs.push_back(disc);
    }
  }
}

void check_frames(const DrawnSheet& page) {
  for (const DrawnFinding& finding : page.findings)
    for (const DrawnFinding::Frame& frame : finding.frames)
      for (const DrawnLabel& label : page.labels) {
        const Rect& b = frame.box;
        for (const Rect& side : {Rect{b.x, b.y, b.w, 0}, Rect{b.x, b.bottom(), b.w, 0}, Rect{b.x, b.y, 0, b.h}, Rect{b.right(), b.y, 0, b.h}})
          if (frame.edged) CHECK(gap(side, label.box) >= 0.3);
      }
}

std::set<std::string> framed(const DrawnSheet& page) {
  std::set<std::string> tags;
  for (const DrawnFinding& finding : page.findings)
    for (const DrawnFinding::Frame& frame : finding.frames)
      for (const DrawnSymbol& symbol : page.symbols)
        if (gap(frame.box, symbol.box) <= -std::min(symbol.box.w, symbol.box.h)) tags.insert(symbol.id);
  return tags;
}

Point port(const DrawnSheet& page, const std::string& tag, const std::string& name) {
  for (const DrawnSymbol& symbol : page.symbols)
    for (const DrawnPort& port : symbol.ports)
      if (symbol.id == tag && port.name == name) return port.at;
  FAIL("no port " << tag << "." << name);
  return {};
}

}  // namespace

TEST_CASE("every finding of the bad circuits has a place, its bands lie on lines, and numbers touch nothing") {
  int seen = 0;
  for (const std::string& path : bad_circuits()) {
    const Drawing drawing = with_findings(tests::project_text(path));
    INFO(path);
    REQUIRE_FALSE(drawing.findings.empty());
    const DrawnSheet& page = drawing.sheets.front();
    CHECK(measure::of(geometry_json(drawing)).errors() == 0);
    check_flags(page, drawing);
    check_frames(page);
    for (const FindingMark& mark : drawing.findings) {
      const bool shown = std::any_of(page.findings.begin(), page.findings.end(), [&](const DrawnFinding& drawn) { return drawn.number == mark.number; });
      const auto told = [&](const std::string& note) { return note.find("is not marked: " + title_of(mark)) != std::string::npos; };
      CHECK((shown || (mark.parts.empty() && mark.way.empty()) || std::any_of(drawing.notes.begin(), drawing.notes.end(), told)));
      seen += shown;
    }
    for (const DrawnFinding& finding : page.findings)
      for (const auto& band : finding.bands)
        for (std::size_t i = 1; i < band.size(); ++i) CHECK(lies_on_a_line(page, band[i - 1], band[i]));
  }
  CHECK(seen > 30);
}

TEST_CASE("a pump that can be shut in is marked from its outlet to the valve that shuts it in, with the relief valve behind it") {
  const Drawing drawing = with_findings(tests::project_text("samples/pairs/relief-behind-valve.fer"));
  const DrawnSheet& page = drawing.sheets.front();
  REQUIRE(page.findings.size() == 1);
  CHECK(framed(page) == std::set<std::string>{"0P1", "0V1", "1V1"});
  const Point from = port(page, "0P1", "P"), to = port(page, "1V1", "P");
  const auto joins = [&](const std::vector<Point>& band) {
    const auto at = [](Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y) < 0.01; };
    return at(band.front(), from) && at(band.back(), to);
  };
  CHECK(std::any_of(page.findings[0].bands.begin(), page.findings[0].bands.end(), joins));
}

TEST_CASE("a line that is too narrow is marked as far as it goes") {
  const Drawing drawing = with_findings(tests::project_text("samples/pairs/lines-too-narrow.fer"));
  const DrawnSheet& page = drawing.sheets.front();
  REQUIRE(page.findings.size() == 2);
  double marked = 0, drawn = 0;
  const auto length = [](const std::vector<Point>& points) {
    double sum = 0;
    for (std::size_t i = 1; i < points.size(); ++i) sum += std::fabs(points[i].x - points[i - 1].x) + std::fabs(points[i].y - points[i - 1].y);
    return sum;
  };
  for (const auto& band : page.findings[0].bands) marked += length(band);
  for (const DrawnNet& net : page.nets)
    for (const DrawnPath& path : net.paths)
      if (path.line == "L2") drawn += length(path.points);
  CHECK(drawn > 0);
  CHECK(marked == Approx(drawn));
}

TEST_CASE("a line without a size to print is marked from port to port") {
  const Drawing drawing = with_findings(tests::project_text("checks/lines/line-undersized/bad-suction-geometric.fer"));
  const DrawnSheet& page = drawing.sheets.front();
  REQUIRE(page.findings.size() == 1);
  REQUIRE(page.findings[0].bands.size() == 1);
  const Point pump = port(page, "0P1", "S"), back = page.findings[0].bands[0].back();
  CHECK(std::hypot(back.x - pump.x, back.y - pump.y) < 0.01);
}

TEST_CASE("in a set a finding is marked on every sheet its path runs over, up to the mark where the line leaves") {
  std::string text = tests::project_text("samples/tile-line.fer");
  const auto replaced = [&](const std::string& from, const std::string& to) {
    REQUIRE(text.find(from) != std::string::npos);
    text.replace(text.find(from), from.size(), to);
  };
  replaced("pressure 0P1.P -- 0V1.P -- 0V2", "pressure 0P1.P -- 0V2");
  replaced("working  9V1.A -- {", "working  9V1.A -- 0V1.P\nworking  9V1.A -- {");
  const Drawing drawing = with_findings(text, {});
  REQUIRE(drawing.sheets.size() > 3);
  int marked = 0, left = 0;
  for (const DrawnSheet& page : drawing.sheets) {
    check_flags(page, drawing);
    marked += !page.findings.empty();
    for (const DrawnFinding& finding : page.findings)
      for (const auto& band : finding.bands)
        for (const DrawnReference& reference : page.references) left += std::hypot(band.back().x - reference.at.x, band.back().y - reference.at.y) < 0.01;
  }
  CHECK(drawing.findings.size() == 1);
  CHECK(marked == 3);  // supply with the pump, the first circuits to which its line leads, the one whose valve parts it from the relief valve
  CHECK(left > 0);
}

TEST_CASE("the list on the sheet says number, code and sentence; the same text gives the same bytes") {
  const std::string text = tests::project_text("samples/pairs/relief-behind-valve.fer");
  const std::string svg = bytes_of(with_findings(text), ".svg");
  CHECK(svg.find("id=\"sheet-1-finding-1\" class=\"finding\" role=\"graphics-object group\"><title>P-01 error: 0P1 can be shut in") != std::string::npos);
  CHECK(svg.find(">Findings</text>") != std::string::npos);
  for (const char* ending : {".pdf", ".svg", ".png"}) CHECK(bytes_of(with_findings(text), ending) == bytes_of(with_findings(text), ending));
}

TEST_CASE("a finding has a bookmark that leads to its number") {
  const Drawing drawing = with_findings(tests::project_text("samples/pairs/relief-behind-valve.fer"));
  const pdf::File file = pdf::read(bytes_of(drawing, ".pdf"));
  REQUIRE(std::any_of(file.bookmarks.begin(), file.bookmarks.end(), [](const pdf::Bookmark& b) { return b.level == 2 && b.words.starts_with("1 P-01 error: 0P1 can be shut in"); }));
  const pdf::Place place = file.places.at("sheet_201_20finding_201");
  const auto& words = file.pages[0].words;
  CHECK(std::any_of(words.begin(), words.end(), [&](const pdf::Word& w) {  // 60 points, 21 mm
    return w.text == "1" && w.box.x() > place.x && w.box.y() > place.y && std::hypot(w.box.x() - place.x, w.box.y() - place.y) < 60;
  }));
}

TEST_CASE("the geometry tells the findings of a sheet, by its schema") {
  const std::string geometry = geometry_json(with_findings(tests::project_text("samples/pairs/lines-too-narrow.fer")));
  drawn::check_schema(geometry);
  CHECK(geometry.find("\"findings\": [\n  {\"number\": 1, \"title\": \"L-01 error: L2 (pressure, 6 mm)") != std::string::npos);
}

TEST_CASE("a sheet without findings is the sheet as usual") {
  const std::string text = tests::project_text("samples/pairs/relief-at-pump.fer");
  const auto made = drawn::compiled(text);
  CHECK(bytes_of(with_findings(text), ".svg") == bytes_of(draw(*made, "circuit", nullptr, {"fit", false}), ".svg"));
}
