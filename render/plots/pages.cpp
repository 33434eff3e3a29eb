#include "render/plots/pages.hpp"

#include <algorithm>
#include <functional>

namespace ferrule::plots {
namespace {

constexpr double page_width = 210, page_height = 297, margin_left = 20, margin = 12, head = 30, foot = 26, gap = 6;
constexpr double width = page_width - margin_left - margin;
constexpr std::string_view care[] = {
    "Steady states as computed; no peaks, no transitions. A calculated aid, no certificate:",
    "ISO 4413, local codes and qualified persons decide before anything is built or changed.",
};

struct Panel {
  double height = 0;
  std::function<void(canvas::Canvas&, const Rect&)> paint;
};

Panel words(std::string text) {
  return {2 * lettering + 2, [text = std::move(text)](canvas::Canvas& paper, const Rect& place) { paper.text({place.left, place.top + lettering}, text, {lettering, canvas::Anchor::left, false}); }};
}

void add_course(std::vector<Panel>& panels, const working::Course& course) {
  if (course.steps.empty()) {
    panels.push_back(words("The text states no cycle: there is no course over steps to show."));
    return;
  }
  const double key = 3 * lettering + 2 * lettering * static_cast<double>(course.steps.size() / 4);
  panels.push_back({key, [&course](canvas::Canvas& paper, const Rect& place) { steps_key(paper, {place.left, place.top}, place.width, course); }});
  for (const Along along : {Along::steps, Along::time}) {
    if (course.lanes.empty() || (along == Along::time && course.lasts.empty())) continue;
    panels.push_back({displacement_height(course), [&course, along](canvas::Canvas& paper, const Rect& place) { displacement_diagram(paper, place, course, along); }});
  }
  if (course.lasts.empty()) panels.push_back(words("No diagram over time: " + course.why_no_time + "."));
  const struct { const char *title, *unit; const std::vector<working::Trace>* traces; } all[] = {
      {"pressure at the pumps", "bar", &course.pressures}, {"flow of the pumps", "L/min", &course.flows}, {"power", "kW", &course.powers}};
  for (const auto& one : all)
    if (!one.traces->empty())
      panels.push_back({64, [&course, one](canvas::Canvas& paper, const Rect& place) { trace_diagram(paper, place, one.title, one.unit, *one.traces, course); }});
}

std::vector<Panel> panels_of(const Plots& plots) {
  std::vector<Panel> panels;
  add_course(panels, plots.course);
  for (const working::PumpChart& chart : plots.pumps)
    panels.push_back({80, [&chart](canvas::Canvas& paper, const Rect& place) { pump_diagram(paper, place, chart); }});
  panels.push_back({heat_height(plots.heat), [&plots](canvas::Canvas& paper, const Rect& place) { heat_diagram(paper, place, plots.heat); }});
  return panels;
}

void paint_care(canvas::Canvas& paper, double bottom) {
  for (std::size_t i = 0; i < std::size(care); ++i)
    paper.text({margin_left, bottom - margin - 6 + static_cast<double>(i) * 2 * lettering}, care[i], {lettering, canvas::Anchor::left, false});
}

void begin_sheet(canvas::Canvas& paper, const Plots& plots, double height, std::size_t number, std::size_t of) {
  paper.new_sheet(page_width, height, std::to_string(number));
  paper.text({margin_left, margin + 6}, plots.title.empty() ? plots.file : plots.title, {5, canvas::Anchor::left, false});
  paper.text({margin_left, margin + 12}, "computed from " + plots.file, {lettering, canvas::Anchor::left, false});
  if (of > 1) paper.text({page_width - margin, margin + 12}, "page " + std::to_string(number) + " of " + std::to_string(of), {lettering, canvas::Anchor::right, false});
  paint_care(paper, height);
}

// Panels by sheet: a panel never parts, and one that is taller than a sheet has a sheet to itself as tall as it needs.
std::vector<std::vector<const Panel*>> by_sheet(const std::vector<Panel>& panels, double room) {
  std::vector<std::vector<const Panel*>> sheets(1);
  double used = 0;
  for (const Panel& panel : panels) {
    if (used > 0 && used + panel.height > room) sheets.emplace_back(), used = 0;
    sheets.back().push_back(&panel);
    used += panel.height + gap;
  }
  return sheets;
}

void paint(canvas::Canvas& paper, const Plots& plots, bool one_sheet) {
  const std::vector<Panel> panels = panels_of(plots);
  const auto sheets = by_sheet(panels, one_sheet ? 1e9 : page_height - head - foot);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    double height = head + foot;
    for (const Panel* panel : sheets[i]) height += panel->height + gap;
    begin_sheet(paper, plots, one_sheet ? height : std::max(page_height, height), i + 1, sheets.size());
    double y = head;
    for (const Panel* panel : sheets[i]) {
      panel->paint(paper, {margin_left, y, width, panel->height});
      y += panel->height + gap;
    }
  }
}

}  // namespace

Plots plots_of(const working::Book& book, const std::string& file) {
  return {book.circuit.title, file, working::course_of(book), working::pump_charts(book), working::heat_bars(book)};
}

DrawnFile plots_file(const Plots& plots, std::string_view ending, long source_date_epoch) {
  const canvas::DocumentData data{plots.title.empty() ? plots.file : plots.title, "diagrams of the cycle", {}, {}, source_date_epoch, 150, false};
  return on_canvas(ending, data, [&](canvas::Canvas& paper) { paint(paper, plots, ending != ".pdf"); });
}

}  // namespace ferrule::plots
