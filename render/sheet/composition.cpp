#include "render/sheet/composition.hpp"

#include <algorithm>
#include <cmath>

namespace ferrule::sheet {
namespace {

// mm: to the frame, between table and title block, between circuit and panels (generous, then tight).
constexpr double frame_margin = 8, least_margin = 4, panel_gap = 10, generous = 20, tight = 6, step = 8;

// One try on one format.
struct Try {
  const Contents& contents;
  Format format;
  Rect space;            // inside the frame, without margin
  Rect title;            // title block and caution
  Panel caution;
  double clearance;      // circuit to panels
  Point at;              // of the circuit
  std::vector<Rect> taken;
  Inks panels;
};

bool clear_of_circuit(const Try& attempt, const Rect& panel, double gap) {
  for (const Rect& box : attempt.contents.circuit)
    if (closer(moved(box, attempt.at), panel, gap)) return false;
  return true;
}

bool is_free(const Try& attempt, const Rect& panel) {
  const Rect& space = attempt.space;
  if (panel.x < space.x || panel.y < space.y || panel.right() > space.right() + 0.01 || panel.bottom() > space.bottom() + 0.01) return false;
  for (const Rect& other : attempt.taken)
    if (closer(panel, other, panel_gap - 0.01)) return false;
  return clear_of_circuit(attempt, panel, attempt.clearance);
}

void put(Try& attempt, const Panel& panel, Point at) {
  Inks inks = panel.inks;
  move(inks, at);
  append(attempt.panels, std::move(inks));
  attempt.taken.push_back({at.x, at.y, panel.width, panel.height});
}

// The first free place among the corners a draughtsman would think of, then row by row from the top right.
bool place(Try& attempt, const Panel& panel, const std::vector<Point>& favourites) {
  for (const Point& at : favourites)
    if (is_free(attempt, {at.x, at.y, panel.width, panel.height})) return put(attempt, panel, at), true;
  const Rect& space = attempt.space;
  for (double y = space.y + frame_margin; y + panel.height <= space.bottom() - frame_margin; y += step)
    for (double x = space.right() - frame_margin - panel.width; x >= space.x + frame_margin; x -= step)
      if (is_free(attempt, {x, y, panel.width, panel.height})) return put(attempt, panel, {x, y}), true;
  return false;
}

bool place_table(Try& attempt) {
  if (!attempt.contents.cycle || attempt.contents.cycle->rows.empty()) return true;
  const Panel table = cycle_table(*attempt.contents.cycle, attempt.format.name == "A4" ? 160 : title_width);
  const Rect& space = attempt.space;
  const double above = attempt.title.y - panel_gap - table.height;
  return place(attempt, table,
               {{std::max(attempt.title.x, space.x + frame_margin), above},                    // flush with the title block, not with the frame
                {space.right() - table.width - frame_margin, above},
                {space.right() - table.width - frame_margin, space.y + frame_margin},        // top right
                {space.x + frame_margin, space.y + frame_margin}});
}

bool place_notes(Try& attempt) {
  const Rect& space = attempt.space;
  const double left = space.x + frame_margin, top = space.y + frame_margin;
  bool all = true;
  if (attempt.contents.state) {
    const Panel& state = *attempt.contents.state;
    all = place(attempt, state, {{left, top}, {space.right() - frame_margin - state.width, top}});
  }
  if (attempt.contents.findings) {
    const Panel& findings = *attempt.contents.findings;
    const double right = space.right() - frame_margin - findings.width;
    all = place(attempt, findings, {{right, top}, {right, attempt.title.y - panel_gap - findings.height}, {left, top}}) && all;
  }
  const Panel lines = legend(attempt.contents.lines);
  const bool worth = !attempt.contents.state && (attempt.contents.lines.pilot || attempt.contents.lines.drain || attempt.contents.lines.chain);
  if (worth && attempt.format.name != "A4")
    place(attempt, lines, {{left, top}, {space.right() - frame_margin - lines.width, top}});  // only when there is room
  if (!attempt.contents.rest_note.empty()) {
    const Panel rest = note(attempt.contents.rest_note, 90);
    std::vector<Point> favourites;
    for (std::size_t i = 1; i < attempt.taken.size(); ++i) {
      const Rect& panel = attempt.taken[i];
      favourites.push_back({panel.x, panel.bottom() + panel_gap});
      favourites.push_back({panel.x, panel.y - panel_gap - rest.height});
    }
    favourites.push_back({std::max(attempt.title.x, left), attempt.title.y - panel_gap - rest.height});
    favourites.push_back({left, space.bottom() - frame_margin - rest.height});
    all = place(attempt, rest, favourites) && all;
  }
  return all;
}

// Where the circuit may stand: near its ideal place first (left of the middle, standing on the lower edge's level).
std::vector<Point> stands(const Rect& extent, const Rect& space, double margin) {
  const double least_x = space.x + margin, most_x = space.right() - margin - extent.w;
  const double least_y = space.y + margin, most_y = space.bottom() - margin - extent.h;
  std::vector<Point> points;
  if (most_x < least_x - 0.01 || most_y < least_y - 0.01) return points;
  const double ideal_x = least_x + (most_x - least_x) * 0.35, ideal_y = least_y + (most_y - least_y) * 0.5;
  for (int i = 0; i <= 4; ++i)
    for (int j = 0; j <= 4; ++j)
      points.push_back({least_x + (most_x - least_x) * i / 4, least_y + (most_y - least_y) * j / 4});
  points.push_back({ideal_x, ideal_y});
  std::stable_sort(points.begin(), points.end(), [&](Point a, Point b) {
    return std::hypot(a.x - ideal_x, a.y - ideal_y) < std::hypot(b.x - ideal_x, b.y - ideal_y);
  });
  return points;
}

Rect title_and(const Panel& caution, const Rect& space) {
  const double height = title_height + caution.height;
  return {space.right() - title_width, space.bottom() - height, title_width, height};
}

Panel caution_of(const std::string& text) { return text.empty() ? Panel{} : caution_row(text, title_width); }

Try start(const Contents& contents, const Format& format, double clearance) {
  const Rect space = drawing_space(format);
  Panel caution = caution_of(contents.caution);
  const Rect title = title_and(caution, space);
  return {contents, format, space, title, std::move(caution), clearance, {}, {title}, {}};
}

std::optional<Try> fitted(const Contents& contents, const Format& format, double clearance, double margin) {
  Try attempt = start(contents, format, clearance);
  const Rect extent = extent_of(contents.circuit);
  for (const Point& stand : stands(extent, attempt.space, margin)) {
    // Whole millimetres: on the grid of half modules wherever the circuit stands.
    attempt.at = {std::floor(stand.x - extent.x), std::floor(stand.y - extent.y)};
    attempt.taken = {attempt.title};
    attempt.panels.clear();
    if (!clear_of_circuit(attempt, attempt.title, std::min(clearance, panel_gap))) continue;
    if (place_table(attempt) && place_notes(attempt)) return attempt;
  }
  return {};
}

// No format is large enough: a sheet of its own size, so that at least a screen and a roll can show it.
Format special(const Contents& contents) {
  const Rect extent = extent_of(contents.circuit);
  return {"special", std::ceil(extent.w + title_width + 250), std::ceil(std::max(extent.h, 400.0) + 200)};
}

void put_caution(Inks& furniture, Panel caution, const Rect& title) {
  move(caution.inks, {title.x, title.bottom() - title_height});
  append(furniture, std::move(caution.inks));
}

Composition finished(Try attempt) {
  Composition result{attempt.format, attempt.at, attempt.space, frame(attempt.format)};
  put_caution(result.furniture, std::move(attempt.caution), attempt.title);
  append(result.furniture, std::move(attempt.panels));
  return result;
}

}  // namespace

Rect extent_of(const std::vector<Rect>& boxes) {
  Rect all = boxes.empty() ? Rect{} : boxes.front();
  for (const Rect& box : boxes) all = around(all, box);
  return all;
}

std::optional<Composition> composed_on(const Contents& contents, const Format& format) {
  for (const auto& [clearance, margin] : {std::pair{generous, frame_margin}, std::pair{tight, frame_margin}, std::pair{tight, least_margin}})
    if (auto attempt = fitted(contents, format, clearance, margin)) return finished(std::move(*attempt));
  return {};
}

Composition composed_apart(const Contents& contents) {
  const Rect extent = extent_of(contents.circuit);
  Try whole = start(contents, special(contents), tight);
  whole.at = {std::floor(whole.space.x + 2 * frame_margin - extent.x), std::floor(whole.space.y + 2 * frame_margin - extent.y)};
  place_table(whole);
  place_notes(whole);
  return finished(std::move(whole));
}

EmptySheet empty_sheet(const Format& format, const std::string& caution) {
  const Rect space = drawing_space(format);
  Panel panel = caution_of(caution);
  const Rect title = title_and(panel, space);
  EmptySheet result{frame(format), space, {space.x + frame_margin, space.y + frame_margin, space.w - 2 * frame_margin, title.y - space.y - 2 * frame_margin}};
  put_caution(result.furniture, std::move(panel), title);
  return result;
}

}  // namespace ferrule::sheet
