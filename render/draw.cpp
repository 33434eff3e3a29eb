#include "render/draw.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "render/cycle.hpp"
#include "render/in_state.hpp"
#include "render/placed.hpp"
#include "render/sheet/composition.hpp"

namespace ferrule {
namespace {

// Line width and capital height that go with a module (ISO 1219-1 and ISO 81714-1, from memory; the series of ISO 128-2, ISO 3098).
struct Scale {
  double module, line, capital;
};
constexpr Scale scales[] = {{2.0, 0.25, 2.5}, {2.5, 0.25, 2.5}, {3.5, 0.35, 3.5}, {5.0, 0.5, 5.0}};

Scale scale_of(double module) {
  for (const Scale& scale : scales)
    if (module <= scale.module + 1e-9) return {module, scale.line, scale.capital};
  return {module, scales[3].line, scales[3].capital};
}

std::string text_of(const SheetData& sheet, const std::string& key) {
  const auto found = sheet.texts.find(key);
  return found == sheet.texts.end() ? std::string() : found->second;
}

sheet::TitleData title_of(const Circuit& circuit) {
  sheet::TitleData title;
  const auto text = [&](const char* key) { return text_of(circuit.sheet, key); };
  title.owner = text("owner");
  title.number = text("number");
  title.revision = text("revision");
  title.date = text("date");
  title.department = text("department");
  title.reference = text("reference");
  title.approved = text("approved");
  title.created = text("created");
  title.status = text("status");
  title.title = circuit.title;
  title.supplement = text("supplement").empty() ? circuit.purpose : text("supplement");
  if (!text("language").empty()) title.language = text("language");
  return title;
}

std::vector<sheet::Rect> boxes_of(const DrawnSheet& page) {
  std::vector<sheet::Rect> boxes;
  for (const DrawnSymbol& symbol : page.symbols) boxes.push_back(symbol.box);
  for (const DrawnLabel& label : page.labels) boxes.push_back(label.box);
  for (const DrawnGroup& group : page.groups) boxes.push_back(group.box);
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
}

// The same circuit with less and less air between its lines; a large one only as is usual.
std::vector<layout::Distances> spacings(const Sketch& sketch) {
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

// One sentence to a refused hint, with the place of every hint it names.
std::string refusal_note(const Compilation& compilation, int hint, int other, const std::string& why) {
  const auto said = [&](int index) {
    const PlaceHint& place = compilation.circuit.hints[static_cast<std::size_t>(index)];
    return fmt::format("`place {}` (line {})", fmt::join(place.words, " "), position_of(compilation.sources[place.span.file], place.span.begin).line);
  };
  return fmt::format("{} is not obeyed: {}", said(hint), why) + (other < 0 ? "" : " " + said(other));
}

void note_refusals(const Compilation& compilation, const Sketch& sketch, const std::vector<layout::Refusal>& refusals,
                   std::vector<std::string>& notes) {
  const auto hint_of = [&](int index) { return index < 0 ? -1 : sketch.hints[static_cast<std::size_t>(index)]; };
  for (const auto& [hint, why] : sketch.refused) notes.push_back(refusal_note(compilation, hint, -1, why));
  for (const layout::Refusal& refusal : refusals)
    notes.push_back(refusal_note(compilation, hint_of(refusal.hint), hint_of(refusal.other), refusal.why));
}

// What the drawing of one circuit is made from.
struct Making {
  const Circuit& circuit;
  Library& library;
  const Sketch& sketch;
  const Drawing& drawing;
  const StateView* view;
};

struct Composed {
  DrawnSheet page;
  sheet::Composition composition;
  std::vector<std::string> notes;
  std::vector<layout::Refusal> refusals;
};

Composed composed(const Making& making, const layout::Distances& distances) {
  const auto& [circuit, library, sketch, drawing, view] = making;
  const layout::Layout layout = layout::lay_out(sketch.problem, distances);
  DrawnSheet page = placed(sketch, layout, library, drawing.module_mm, drawing.line_mm, drawing.capital_mm);
  if (view != nullptr) show_state(page, sketch, circuit, *view, drawing);
  sheet::Contents contents{boxes_of(page), title_of(circuit), caution(circuit), cycle_table(circuit), rest_note(circuit), line_types(page), {}, circuit.sheet.format};
  if (view != nullptr) {
    contents.state = state_legend(page, sketch, *view, drawing);
    contents.rest_note.clear();
  }
  return {std::move(page), sheet::composed(contents), layout.notes, layout.refusals};
}

// The smallest format that holds it, and there the most air.
Composed best_composed(const Making& making) {
  std::optional<Composed> best;
  for (const layout::Distances& distances : spacings(making.sketch)) {
    Composed now = composed(making, distances);
    if (!best || now.composition.format.width < best->composition.format.width) best = std::move(now);
  }
  return std::move(*best);
}

void compose(Drawing& drawing, Composed made) {
  auto& page = made.page;
  auto& composition = made.composition;
  const auto& notes = made.notes;
  drawing.notes.insert(drawing.notes.end(), notes.begin(), notes.end());
  shift(page, composition.circuit_at);
  page.format = composition.format;
  page.area = composition.area;
  page.furniture = std::move(composition.furniture);
  drawing.notes.insert(drawing.notes.end(), composition.notes.begin(), composition.notes.end());
  drawing.sheets.push_back(std::move(page));
}

// Every word of the sheet, whoever wrote it.
void note_missing_letters(Drawing& drawing) {
  std::string words;
  for (const DrawnSheet& page : drawing.sheets) {
    for (const DrawnLabel& label : page.labels) words += canvas::lacking(label.text);
    for (const sheet::Ink& ink : page.furniture)
      if (ink.kind == sheet::Ink::Kind::words) words += canvas::lacking(ink.words);
  }
  if (const std::string missing = canvas::lacking(words); !missing.empty())
    drawing.notes.push_back("the lettering of drawings lacks " + missing + ": drawn as an empty square");
}

}  // namespace

Drawing draw(const Compilation& compilation, const std::string& source, const StateView* view) {
  const Circuit& circuit = compilation.circuit;
  const Scale scale = scale_of(circuit.sheet.module_mm);
  Drawing drawing;
  drawing.source = source;
  drawing.title = circuit.title.empty() ? source : circuit.title;
  drawing.subject = "Hydraulic circuit diagram";
  drawing.module_mm = scale.module;
  drawing.line_mm = scale.line;
  drawing.capital_mm = scale.capital;
  drawing.drain_like_pilot = circuit.sheet.drain_like_pilot;
  if (view != nullptr) drawing.state = view->name;
  const Sketch sketch = sketched(circuit, *compilation.library, scale.module, scale.capital, view);
  drawing.notes = sketch.notes;
  Composed best = best_composed({circuit, *compilation.library, sketch, drawing, view});
  note_refusals(compilation, sketch, best.refusals, drawing.notes);
  compose(drawing, std::move(best));
  note_missing_letters(drawing);
  return drawing;
}

namespace {

// The bytes of whatever `painted` puts on a canvas of that kind.
template <class Painted>
DrawnFile on_canvas(std::string_view ending, const canvas::DocumentData& data, Painted painted) {
  const bool known = ending == ".pdf" || ending == ".svg" || ending == ".png";
  if (!known) return {{}, "drawings are written as .pdf, .svg, .png or .json, not as " + std::string(ending)};
  const auto format = ending == ".pdf" ? canvas::Format::pdf : ending == ".svg" ? canvas::Format::svg : canvas::Format::png;
  const auto canvas = canvas::new_canvas(format, data);
  if (canvas == nullptr) return {{}, canvas::why_no_canvas()};
  painted(*canvas);
  std::string bytes = canvas->finish();
  if (bytes.empty()) return {{}, "the sheet is too large for this kind of file; a .svg or .pdf holds any size"};
  return {std::move(bytes), {}};
}

}  // namespace

DrawnFile file_of(const Drawing& drawing, std::string_view ending, long source_date_epoch, double dots_per_inch) {
  if (ending == ".json") return {geometry_json(drawing), {}};
  const canvas::DocumentData data{drawing.title, drawing.subject, source_date_epoch, dots_per_inch, !drawing.state.empty()};
  return on_canvas(ending, data, [&](canvas::Canvas& canvas) { paint(drawing, canvas); });
}

DrawnFile symbols_file(Library& library, std::string_view ending, long source_date_epoch) {
  const canvas::DocumentData data{"Symbols of the library", "ISO 1219-1 symbols with their ports", source_date_epoch, 100, false};
  return on_canvas(ending, data, [&](canvas::Canvas& canvas) { symbols::contact_sheet(library, canvas); });
}

}  // namespace ferrule
