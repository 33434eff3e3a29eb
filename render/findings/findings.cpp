#include "render/findings/findings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "render/findings/flags.hpp"
#include "render/findings/way.hpp"

namespace ferrule {
namespace {

using sheet::Ink, sheet::Inks, sheet::Point, sheet::Rect;

// In modules. A band stays clear of the neighbouring line, one module away, and of texts half a module away.
constexpr double band_width = 0.8, frame_gap = 0.6, text_gap = 0.3, edge = 0.15;
// Light enough to read black lines on, dark enough to print grey; the edges stay when a copier drops the grey.
constexpr canvas::Colour tint{255, 214, 120}, edge_colour{130, 75, 0};

Rect grown(const Rect& r, double by) { return {r.x - by, r.y - by, r.w + 2 * by, r.h + 2 * by}; }

// The path, from station to station; pipes lie between them. What is on the way belongs to the parts.
void follow(const DrawnSheet& page, const FindingMark& mark, DrawnFinding& drawn, std::set<std::string>& parts) {
  std::vector<Station> stations;
  for (const std::string& word : mark.way) {
    Station station = station_of(page, word);
    parts.insert(station.tag);
    if (!station.pipe) stations.push_back(std::move(station));
  }
  for (std::size_t i = 0; i < stations.size(); ++i) {
    if (i == 0 || stations[i].tag == stations[i - 1].tag) continue;
    auto way = between(page, stations[i - 1], stations[i]);
    if (way.empty())
      for (const Station& end : {stations[i - 1], stations[i]})
        if (auto part = off_the_sheet(page, end); !part.empty()) drawn.bands.push_back(std::move(part));
    if (!way.empty()) drawn.bands.push_back(std::move(way));
  }
}

bool inside(const Rect& box, const Rect& frame) {
  return box.x >= frame.x && box.y >= frame.y && box.right() <= frame.right() && box.bottom() <= frame.bottom();
}

// Texts that the outline would cross.
std::vector<const DrawnLabel*> crossed_by(const DrawnSheet& page, const Rect& frame, double gap) {
  std::vector<const DrawnLabel*> crossed;
  for (const DrawnLabel& label : page.labels)
    if (sheet::closer(label.box, frame, gap) && !inside(grown(label.box, gap), frame)) crossed.push_back(&label);
  return crossed;
}

bool meets_another(const DrawnSheet& page, const DrawnSymbol& symbol, const Rect& frame) {
  return std::any_of(page.symbols.begin(), page.symbols.end(), [&](const DrawnSymbol& other) { return &other != &symbol && sheet::closer(other.box, frame, 0); });
}

// Around the symbol, and around such of its texts as stand half in the way.
DrawnFinding::Frame frame_of(const DrawnSheet& page, const DrawnSymbol& symbol, double module) {
  constexpr int most_texts = 8;
  const Rect least = grown(symbol.box, frame_gap * module);
  Rect frame = least;
  for (int i = 0; i < most_texts; ++i) {
    const auto crossed = crossed_by(page, frame, text_gap * module);
    if (crossed.empty()) return {frame, true};
    if (crossed.front()->owner != symbol.id) break;
    frame = sheet::around(frame, grown(crossed.front()->box, (text_gap + 0.1) * module));
    if (meets_another(page, symbol, frame)) break;
  }
  return {least, false};
}

void frame_parts(const DrawnSheet& page, const std::set<std::string>& parts, double module, DrawnFinding& drawn) {
  for (const DrawnSymbol& symbol : page.symbols)
    if (parts.contains(symbol.id) && symbol.kind != "reservoir") drawn.frames.push_back(frame_of(page, symbol, module));
}

// Places along the longest straight of the path, the middle first.
std::vector<Rect> places_along(const DrawnFinding& drawn, double module) {
  double longest = 0;
  std::vector<Rect> places;
  for (const auto& band : drawn.bands)
    for (std::size_t i = 1; i < band.size(); ++i) {
      const Point a = band[i - 1], b = band[i];
      const double length = std::fabs(a.x - b.x) + std::fabs(a.y - b.y);
      if (length <= longest) continue;
      longest = length;
      places.clear();
      for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8})
        places.push_back(grown({a.x + share * (b.x - a.x), a.y + share * (b.y - a.y), 0, 0}, band_width / 2 * module));
    }
  return places;
}

// Where the number belongs: at the subject, else on the path, else at any part.
std::vector<Rect> places_of_flag(const DrawnSheet& page, const FindingMark& mark, const DrawnFinding& drawn, double module) {
  for (const DrawnSymbol& symbol : page.symbols)
    if (!mark.parts.empty() && symbol.id == mark.parts.front() && symbol.kind != "reservoir") return {frame_of(page, symbol, module).box};
  std::vector<Rect> places = places_along(drawn, module);
  if (places.empty() && !drawn.frames.empty()) places = {drawn.frames.front().box};
  return places;
}

Ink polygon(const Rect& r, canvas::Colour colour) {
  Ink ink = sheet::outline(r, 0);
  ink.kind = Ink::Kind::filled;
  ink.colour = colour;
  return ink;
}

Ink band(const std::vector<Point>& points, double width, canvas::Colour colour) {
  Ink ink = sheet::line(points, width);
  ink.colour = colour;
  return ink;
}

// White figures on black: seen first on any copy.
Inks disc(Point at, int number, double radius, double capital) {
  Ink black;
  black.kind = Ink::Kind::disc;
  black.points = {at};
  black.radius = radius;
  Ink figures = sheet::words({at.x, at.y + capital / 2}, std::to_string(number), capital, sheet::Anchor::middle);
  figures.colour = canvas::white;
  return {black, figures};
}

}  // namespace

std::string title_of(const FindingMark& mark) { return fmt::format("{} {}: {}", mark.code, mark.severity, mark.sentence); }

bool shows_finding(const DrawnSheet& page, const FindingMark& mark) {
  return (mark.parts.empty() && mark.way.empty()) ||
         std::any_of(page.findings.begin(), page.findings.end(), [&](const DrawnFinding& drawn) { return drawn.number == mark.number; });
}

double disc_radius(const Drawing& drawing) { return 1.1 * drawing.capital_mm; }

Rect box_of(const DrawnFinding::Flag& flag, const Drawing& drawing) {
  return grown({flag.at.x, flag.at.y, 0, 0}, disc_radius(drawing));
}

void mark_findings(DrawnSheet& page, const Drawing& drawing) {
  if (drawing.findings.empty()) return;
  Obstacles obstacles = obstacles_on(page);
  for (const FindingMark& mark : drawing.findings) {
    DrawnFinding drawn{mark.number, title_of(mark), {}, {}, {}};
    std::set<std::string> parts(mark.parts.begin(), mark.parts.end());
    follow(page, mark, drawn, parts);
    for (const std::string& tag : parts)
      for (auto& path : pipe_paths(page, tag)) drawn.bands.push_back(std::move(path));
    if (drawn.bands.empty() && mark.between.size() == 2)
      if (auto line = between(page, station_of(page, mark.between[0]), station_of(page, mark.between[1])); !line.empty()) drawn.bands.push_back(std::move(line));
    frame_parts(page, parts, drawing.module_mm, drawn);
    if (drawn.bands.empty() && drawn.frames.empty()) continue;
    page.findings.push_back(std::move(drawn));
  }
  // Frames first, so that no number stands on one.
  for (const DrawnFinding& drawn : page.findings)
    for (const DrawnFinding::Frame& frame : drawn.frames) obstacles.lines.push_back(frame.box);
  for (DrawnFinding& drawn : page.findings) {
    const FindingMark& mark = *std::find_if(drawing.findings.begin(), drawing.findings.end(), [&](const FindingMark& m) { return m.number == drawn.number; });
    const auto places = places_of_flag(page, mark, drawn, drawing.module_mm);
    if (!places.empty()) drawn.flags.push_back(flag_beside(places, obstacles, drawing));
  }
}

Inks bands_of(const DrawnSheet& page, const Drawing& drawing) {
  const double m = drawing.module_mm;
  Inks inks;
  for (const bool edges : {true, false}) {  // all edges below all tints: what joins looks joined
    const canvas::Colour colour = edges ? edge_colour : tint;
    for (const DrawnFinding& finding : page.findings) {
      for (const DrawnFinding::Frame& frame : finding.frames)
        if (!edges || frame.edged) inks.push_back(polygon(grown(frame.box, edges ? 0 : -edge * m), colour));
      for (const auto& way : finding.bands) inks.push_back(band(way, (band_width - (edges ? 0 : 2 * edge)) * m, colour));
    }
  }
  return inks;
}

Inks flag_of(const DrawnFinding& finding, const Drawing& drawing) {
  Inks inks;
  for (const DrawnFinding::Flag& flag : finding.flags) {
    inks.push_back(sheet::line({flag.foot, flag.at}, drawing.line_mm));
    sheet::append(inks, disc(flag.at, finding.number, disc_radius(drawing), drawing.capital_mm));
  }
  return inks;
}

void shift(DrawnFinding& finding, Point by) {
  const auto move = [&](Point& p) { p = {p.x + by.x, p.y + by.y}; };
  for (auto& band : finding.bands)
    for (Point& point : band) move(point);
  for (DrawnFinding::Frame& frame : finding.frames) frame.box = sheet::moved(frame.box, by);
  for (DrawnFinding::Flag& flag : finding.flags) {
    move(flag.foot);
    move(flag.at);
  }
}

std::optional<sheet::Panel> findings_list(const DrawnSheet& page, const Drawing& drawing) {
  constexpr double heading = 3.5, width = 120, pitch = 4, gap = 2.5;
  const double radius = disc_radius(drawing), left = 2 * radius + 3, capital = drawing.capital_mm;
  sheet::Panel panel{{sheet::words({0, heading}, "Findings", heading)}, left + width, heading + 4};
  for (const FindingMark& mark : drawing.findings) {
    if (!shows_finding(page, mark)) continue;
    sheet::append(panel.inks, disc({radius, panel.height + radius}, mark.number, radius, capital));
    double baseline = panel.height + radius + capital / 2;
    for (const std::string& row : sheet::wrapped(title_of(mark), width, capital)) {
      panel.inks.push_back(sheet::words({left, baseline}, row, capital));
      baseline += pitch;
    }
    panel.height = std::max(panel.height + 2 * radius, baseline - pitch + 0.3 * capital) + gap;
  }
  if (panel.inks.size() == 1) return {};
  panel.height -= gap;
  return panel;
}

}  // namespace ferrule
