#include "render/composing.hpp"

#include <algorithm>
#include <cmath>

#include "render/cycle.hpp"
#include "render/in_state.hpp"
#include "render/placed.hpp"

namespace ferrule {
namespace {

std::vector<sheet::Rect> boxes_of(const DrawnSheet& page, const Drawing& drawing) {
  std::vector<sheet::Rect> boxes;
  for (const DrawnSymbol& symbol : page.symbols) boxes.push_back(symbol.box);
  for (const DrawnLabel& label : page.labels) boxes.push_back(label.box);
  for (const DrawnGroup& group : page.groups) boxes.push_back(group.box);
  for (const DrawnFinding& finding : page.findings) {
    for (const DrawnFinding::Frame& frame : finding.frames) boxes.push_back(frame.box);
    for (const DrawnFinding::Flag& flag : finding.flags) boxes.push_back(box_of(flag, drawing));
  }
  for (const DrawnNet& net : page.nets)
    for (const DrawnPath& path : net.paths)
      for (std::size_t i = 1; i < path.points.size(); ++i) {
        const auto a = path.points[i - 1], b = path.points[i];
        boxes.push_back({std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x), std::abs(a.y - b.y)});
      }
  return boxes;
}

sheet::LineTypes line_types(const DrawnSheet& page) {
  sheet::LineTypes types;
  for (const DrawnNet& net : page.nets)
    for (const DrawnPath& path : net.paths) {
      types.pilot = types.pilot || path.look == layout::NetKind::pilot;
      types.drain = types.drain || path.look == layout::NetKind::drain;
    }
  types.chain = !page.groups.empty();
  return types;
}

void shift(sheet::Point& point, sheet::Point by) { point = {point.x + by.x, point.y + by.y}; }

void shift(DrawnSheet& page, sheet::Point by) {
  for (DrawnSymbol& symbol : page.symbols) {
    symbol.box = sheet::moved(symbol.box, by);
    shift(symbol.centre, by);
    for (DrawnPort& port : symbol.ports) shift(port.at, by);
    sheet::move(symbol.inks, by);
  }
  for (DrawnNet& net : page.nets) {
    for (DrawnPath& path : net.paths)
      for (auto& point : path.points) shift(point, by);
    for (auto& point : net.junctions) shift(point, by);
    for (DrawnArrow& arrow : net.arrows) shift(arrow.tip, by);
  }
  for (DrawnLabel& label : page.labels) {
    label.box = sheet::moved(label.box, by);
    shift(label.baseline, by);
    for (auto& point : label.leader) shift(point, by);
  }
  for (DrawnGroup& group : page.groups) {
    group.box = sheet::moved(group.box, by);
    for (auto& point : group.crossings) shift(point, by);
  }
  for (DrawnFinding& finding : page.findings) shift(finding, by);
}

struct Laid {
  DrawnSheet page;
  sheet::Contents contents;
  std::vector<std::string> notes;
  std::vector<layout::Refusal> refusals;
};

Laid laid(const Making& making, const Sketch& sketch, const layout::Distances& distances) {
  const auto& [circuit, library, drawing, view, with_cycle] = making;
  const layout::Layout layout = layout::lay_out(sketch.problem, distances);
  DrawnSheet page = placed(sketch, layout, library, drawing.module_mm, drawing.line_mm, drawing.capital_mm);
  if (view != nullptr) show_state(page, sketch, circuit, *view, drawing);
  mark_findings(page, drawing);
  sheet::Contents contents{boxes_of(page, drawing), caution(circuit), {}, rest_note(circuit), line_types(page), {}, findings_list(page, drawing)};
  if (with_cycle) contents.cycle = cycle_table(circuit);
  if (view != nullptr) {
    contents.state = state_legend(page, sketch, *view, drawing);
    contents.rest_note.clear();
  }
  return {std::move(page), std::move(contents), layout.notes, layout.refusals};
}

// The words on how a step ends are the first to go where a table keeps a circuit from a sheet.
std::optional<sheet::CycleTable> without_ends(std::optional<sheet::CycleTable> table) {
  if (table)
    for (auto& row : table->rows) row.ends.clear();
  return table;
}

Composed stood(Laid laid, sheet::Composition composition) {
  DrawnSheet& page = laid.page;
  shift(page, composition.circuit_at);
  page.format = composition.format;
  page.area = composition.area;
  page.furniture = std::move(composition.furniture);
  return {std::move(page), sheet::extent_of(laid.contents.circuit), std::move(laid.notes), std::move(laid.refusals)};
}

}  // namespace

std::vector<layout::Distances> spacings_of(const Sketch& sketch) {
  constexpr std::size_t large = 250;
  if (sketch.problem.items.size() > large) return {layout::Distances{}};
  std::vector<layout::Distances> all;
  for (const bool short_trough : {false, true})
    for (layout::Distances distances : {layout::roomy_distances, layout::Distances{}, layout::tight_distances}) {
      distances.short_trough = short_trough;
      all.push_back(distances);
    }
  return all;
}

std::optional<Composed> composed(const Making& making, const Sketch& sketch, std::span<const layout::Distances> spacings,
                                 std::span<const sheet::Format> formats) {
  struct Choice {
    Composed sheet;
    std::size_t format;
    bool whole;            // the work cycle says how its steps end
  };
  std::optional<Choice> best;
  for (const layout::Distances& distances : spacings) {
    Laid now = laid(making, sketch, distances);
    for (const bool whole : {true, false}) {
      if (!whole) now.contents.cycle = without_ends(std::move(now.contents.cycle));
      const std::size_t limit = !best ? formats.size() : best->format + (whole && !best->whole ? 1 : 0);
      std::size_t i = 0;
      std::optional<sheet::Composition> composition;
      while (i < limit && !(composition = sheet::composed_on(now.contents, formats[i]))) ++i;
      if (!composition) continue;
      best = Choice{stood(std::move(now), std::move(*composition)), i, whole};
      break;
    }
    if (best && best->format == 0 && best->whole) break;
  }
  if (!best) return {};
  return std::move(best->sheet);
}

std::optional<Composed> composed_alone(const Making& making, const Sketch& sketch, std::span<const layout::Distances> spacings,
                                       std::span<const Room> rooms) {
  constexpr double air = 2;   // mm around the circuit: lines have a width
  for (const Room& room : rooms)
    for (const layout::Distances& distances : spacings) {
      Laid now = laid(making, sketch, distances);
      sheet::Rect all = now.contents.circuit.front();
      for (const sheet::Rect& box : now.contents.circuit) all = sheet::around(all, box);
      const double width = all.w + 2 * air, height = all.h + 2 * air;
      if (width > room.width || height > room.height) continue;
      return stood(std::move(now), {{"special", width, height}, {air - all.x, air - all.y}, {0, 0, width, height}, {}});
    }
  return {};
}

Composed composed_apart(const Making& making, const Sketch& sketch) {
  Laid now = laid(making, sketch, layout::tight_distances);
  sheet::Composition composition = sheet::composed_apart(now.contents);
  return stood(std::move(now), std::move(composition));
}

}  // namespace ferrule
