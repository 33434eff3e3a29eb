#include "render/draw.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "render/composing.hpp"
#include "render/dxf/dxf.hpp"
#include "render/refusals.hpp"
#include "render/set/set.hpp"

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

sheet::TitleData title_of(const Circuit& circuit, const SheetWish& wish) {
  sheet::TitleData title;
  if (wish.legible_on_a4) title.least_capital = 2.5;
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

// Number and revision, by which a document is found.
std::string keywords_of(const SheetData& sheet) {
  const std::string number = text_of(sheet, "number"), revision = text_of(sheet, "revision");
  return revision.empty() ? number : number + (number.empty() ? "" : ", ") + "revision " + revision;
}

// Height of letters on A4 when the sheet is printed there.
double capital_on_a4(const sheet::Format& format, double capital) { return capital * std::min(1.0, 210 / std::min(format.width, format.height)); }

// A3 on A4 makes 1.8 mm of 2.5 (ISO 3098: heights in steps of the square root of 2, as the formats of ISO 216), A2 no more.
bool legible_on_a4(const sheet::Format& format, double capital) {
  constexpr double least = 1.8, rounding = 0.05;
  return capital_on_a4(format, capital) >= least - rounding;
}

// Those that may be taken, from small to large; one when it is asked for.
std::vector<sheet::Format> formats_for(const Circuit& circuit, const SheetWish& wish, double capital, std::vector<std::string>& notes) {
  const auto fixed = sheet::format_named(wish.format.empty() ? circuit.sheet.format : wish.format);
  if (fixed && (!wish.legible_on_a4 || legible_on_a4(*fixed, capital))) return {*fixed};
  std::vector<sheet::Format> all;
  for (const sheet::Format& format : sheet::formats())
    if (!wish.legible_on_a4 || legible_on_a4(format, capital)) all.push_back(format);
  if (fixed)
    notes.push_back(fmt::format("printed on A4, {} would have letters of {:.1f} mm: drawn on {} at most", fixed->name, capital_on_a4(*fixed, capital), all.back().name));
  return all;
}

std::string set_note(const Drawing& drawing, const std::vector<sheet::Format>& formats) {
  return fmt::format("the circuit with its tables does not fit one sheet of {}: drawn on {} sheets, with an index on the first and a parts list at the end",
                     formats.back().name, drawing.sheets.size());
}

void drop_repeated(std::vector<std::string>& notes) {
  std::vector<std::string> once;
  for (std::string& note : notes)
    if (std::find(once.begin(), once.end(), note) == once.end()) once.push_back(std::move(note));
  notes = std::move(once);
}

// A finding whose line is not drawn by itself has no place to be marked: said, so that nobody takes the sheet for the whole report.
void note_unmarked(Drawing& drawing) {
  for (const FindingMark& mark : drawing.findings) {
    const auto shows = [&](const DrawnSheet& page) { return shows_finding(page, mark); };
    if (std::none_of(drawing.sheets.begin(), drawing.sheets.end(), shows))
      drawing.notes.push_back(fmt::format("has no place of its own on the sheet and is not marked: {}", title_of(mark)));
  }
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

namespace {

// A drawing without sheets.
Drawing begun(const Compilation& compilation, const std::string& source, const StateView* view) {
  const Circuit& circuit = compilation.circuit;
  const Scale scale = scale_of(circuit.sheet.module_mm);
  Drawing drawing;
  drawing.source = source;
  drawing.title = circuit.title.empty() ? source : circuit.title;
  drawing.subject = "Hydraulic circuit diagram";
  drawing.author = text_of(circuit.sheet, "created").empty() ? text_of(circuit.sheet, "owner") : text_of(circuit.sheet, "created");
  drawing.keywords = keywords_of(circuit.sheet);
  drawing.module_mm = scale.module;
  drawing.line_mm = scale.line;
  drawing.capital_mm = scale.capital;
  drawing.drain_like_pilot = circuit.sheet.drain_like_pilot;
  if (view != nullptr) drawing.state = view->name;
  return drawing;
}

}  // namespace

std::optional<Drawing> draw_alone(const Compilation& compilation, const std::string& source, const StateView* view, std::span<const Room> rooms) {
  Drawing drawing = begun(compilation, source, view);
  const Sketch sketch = sketched(compilation.circuit, *compilation.library, drawing.module_mm, drawing.capital_mm, view);
  drawing.notes = sketch.notes;
  auto one = composed_alone({compilation.circuit, *compilation.library, drawing, view, false}, sketch, spacings_of(sketch), rooms);
  if (!one) return {};
  note_refusals(compilation, sketch, one->refusals, drawing.notes);
  drawing.sheets.push_back(std::move(one->page));
  return drawing;
}

Drawing draw(const Compilation& compilation, const std::string& source, const StateView* view, const SheetWish& wish, std::vector<FindingMark> findings) {
  const Circuit& circuit = compilation.circuit;
  Drawing drawing = begun(compilation, source, view);
  drawing.findings = std::move(findings);
  const Sketch sketch = sketched(circuit, *compilation.library, drawing.module_mm, drawing.capital_mm, view);
  drawing.notes = sketch.notes;
  note_unasked(compilation, sketch, drawing.notes);
  const auto refused = [&](const Sketch& drawn, const std::vector<layout::Refusal>& refusals) { note_refusals(compilation, drawn, refusals, drawing.notes); };
  const std::vector<sheet::Format> formats = formats_for(circuit, wish, drawing.capital_mm, drawing.notes);
  const sheet::TitleData title = title_of(circuit, wish);
  const Making making{circuit, *compilation.library, drawing, view};
  if (auto one = composed(making, sketch, spacings_of(sketch), formats)) {
    drawing.notes.insert(drawing.notes.end(), one->notes.begin(), one->notes.end());
    refused(sketch, one->refusals);
    sheet::append(one->page.furniture, sheet::title_on(one->page.area, title, drawing.notes));
    drawing.sheets.push_back(std::move(one->page));
  } else {
    set::add_set(drawing, making, sketch, {formats, title}, refused);
    drawing.notes.insert(drawing.notes.begin(), set_note(drawing, formats));
  }
  note_sheets(compilation, sketch, drawing.sheets, drawing.notes);
  note_unmarked(drawing);
  note_missing_letters(drawing);
  drop_repeated(drawing.notes);
  return drawing;
}

std::vector<DrawnFile> files_of(const Drawing& drawing, std::string_view ending, long source_date_epoch, double dots_per_inch) {
  if (ending == ".json") return {{geometry_json(drawing), {}, {}}};
  const bool set = drawing.sheets.size() > 1;
  if (ending == ".dxf") {
    std::vector<DrawnFile> files;
    for (const DrawnSheet& page : drawing.sheets) files.push_back({dxf_of(page, drawing), {}, set ? page.id : ""});
    return files;
  }
  const canvas::DocumentData data{drawing.title, drawing.subject, drawing.author, drawing.keywords, source_date_epoch, dots_per_inch, !drawing.state.empty() || !drawing.findings.empty()};
  if (ending == ".pdf" || !set)
    return {on_canvas(ending, data, [&](canvas::Canvas& canvas) {
      for (const DrawnSheet& page : drawing.sheets) paint(page, drawing, canvas);
    })};
  std::vector<DrawnFile> files;
  for (const DrawnSheet& page : drawing.sheets) {
    files.push_back(on_canvas(ending, data, [&](canvas::Canvas& canvas) { paint(page, drawing, canvas); }));
    files.back().sheet = page.id;
    if (!files.back().error.empty()) return {files.back()};
  }
  return files;
}

DrawnFile symbols_file(Library& library, std::string_view ending, long source_date_epoch) {
  const canvas::DocumentData data{"Symbols of the library", "ISO 1219-1 symbols with their ports", {}, {}, source_date_epoch, 100, false};
  return on_canvas(ending, data, [&](canvas::Canvas& canvas) { symbols::contact_sheet(library, canvas); });
}

DrawnFile section_file(const sections::Spool& spool, const Part& valve, const sections::SectionPage& page, std::string_view ending, long source_date_epoch) {
  const canvas::DocumentData data{page.title, "section in every position", {}, {}, source_date_epoch, 200, false};
  return on_canvas(ending, data, [&](canvas::Canvas& canvas) { sections::paint_page(canvas, spool, valve, page); });
}

}  // namespace ferrule
