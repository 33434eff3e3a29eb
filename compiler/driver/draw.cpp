// ferrule draw: the sheet or the sheets of a circuit, in the kind of file its name ends with.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <optional>

#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/findings_on_sheet.hpp"
#include "compiler/driver/judged.hpp"
#include "compiler/driver/outputs.hpp"
#include "render/draw.hpp"
#include "render/readback/verify.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule draw press.fer --output press.pdf", "the sheet, with searchable text"},
    {"ferrule draw press.fer --output press.png --dpi 300", "a picture"},
    {"ferrule draw press.fer --state squeeze --output squeeze.pdf", "how the oil runs in one step of the cycle"},
    {"ferrule draw press.fer --findings --output review.pdf", "what check finds, marked where it is"},
    {"ferrule draw press.fer --format A3 --output press.pdf", "on A3, as many sheets as it takes"},
    {"ferrule draw press.fer --output press.json", "the geometry: symbols, ports, lines and texts in mm"},
    {"ferrule draw press.fer --output press.dxf", "to go on in mechanical CAD: layers by line kind, in mm"},
    {"ferrule draw press.fer --verify", "reads the sheet back: does it say what the text says?"},
};
constexpr Option options[] = {
    {"--output", "PATH", "where to; ends with .pdf, .svg, .png, .json or .dxf"},
    {"--format", "A4...A0", "on sheets of this format, as many as it takes; fit: the one that holds all"},
    {"--legible-on-a4", "", "sheets that stay legible when printed on A4: A3 at most"},
    {"--state", "NAME", "in this state: valves shifted, lines by their condition, pressures and flows"},
    {"--findings", "", "mark and list what check finds, on its path and parts"},
    {"--verify", "", "read the net list back from the drawing and compare it with the text; exit code 1 where they differ"},
    {"--geometry", "X.json", "with --verify: read this geometry in place of a new drawing"},
    {"--dpi", "N", "dots per inch of a .png, 50 to 600 (default 200)"},
};

constexpr std::string_view formats[] = {"A4", "A3", "A2", "A1", "A0", "fit"};
constexpr std::string_view endings[] = {".pdf", ".svg", ".png", ".json", ".dxf"};

struct Wanted {
  std::string file, output, state, geometry;
  SheetWish sheets;
  bool verify = false, findings = false;
  double dots_per_inch = 200;
};

// Says every difference of sheet and text, or that there is none.
int verified(const Wanted& wanted, const Circuit& circuit, std::string_view geometry, Talk& talk) {
  const readback::Verdict verdict = readback::verify(circuit, geometry);
  const std::string sheet = wanted.geometry.empty() ? wanted.file : wanted.geometry;
  if (!verdict.unreadable.empty()) return say(talk, fmt::format("{} is no geometry of a drawing: {}", sheet, verdict.unreadable), exit_code::unreadable);
  for (const std::string& difference : verdict.differences) talk.out += safe(sheet + ": " + difference) + "\n";
  if (!verdict.differences.empty()) return exit_code::found;
  if (wanted.output.empty()) talk.out += safe(fmt::format("{}: the sheet says what the text says: {} ports, {} nets", sheet, verdict.ports, verdict.nets)) + "\n";
  return exit_code::done;
}

constexpr std::size_t largest_geometry_mib = 64;   // a drawing of 10 000 components needs a third of it

int verify_file(const Wanted& wanted, const Circuit& circuit, Talk& talk) {
  const Input input = opened(wanted.geometry, largest_geometry_mib);
  if (!input.error.empty()) return say(talk, fmt::format("{} cannot be read: {}", wanted.geometry, input.error), exit_code::unreadable);
  return verified(wanted, circuit, input.text, talk);
}

// "press.svg" becomes "press-2.svg" for sheet 2; numbers of one set are equally long, so that they sort.
std::string name_of(const std::filesystem::path& path, const std::string& sheet, std::size_t sheets) {
  if (sheet.empty()) return path.string();
  const std::size_t digits = std::to_string(sheets).size();
  std::filesystem::path name = path;
  name.replace_filename(fmt::format("{}-{:0>{}}{}", path.stem().string(), sheet, digits, path.extension().string()));
  return name.string();
}

int write_drawing(const Wanted& wanted, const Drawing& drawing, Talk& talk) {
  const std::filesystem::path path(wanted.output);
  const std::vector<DrawnFile> files = files_of(drawing, path.extension().string(), talk.source_date_epoch, wanted.dots_per_inch);
  for (const DrawnFile& drawn : files) {
    if (!drawn.error.empty()) return say(talk, drawn.error, exit_code::not_written);
    const std::string name = name_of(path, drawn.sheet, files.size());
    if (const int code = put_file(name, drawn.bytes, talk)) return code;
  }
  return exit_code::done;
}

int draw_one(const Wanted& wanted, Talk& talk) {
  const std::string& file = wanted.file;
  const Compiled one = compiled(file, talk);
  if (!one.compilation || one.compilation->unreadable) return exit_code::unreadable;
  if (has_faults(one, talk)) return exit_code::found;
  const Circuit& circuit = one.compilation->circuit;
  if (!wanted.geometry.empty()) return verify_file(wanted, circuit, talk);
  std::optional<StateView> view;
  if (!wanted.state.empty()) {
    const Computed known = computed(circuit);
    const auto index = known.book->state_named(wanted.state);
    if (!index) return say(talk, fmt::format("there is no state {}; there are: {}", wanted.state, fmt::join(told_names(*known.book), ", ")), exit_code::called_wrongly);
    view = view_of(*known.book, *index);
  }
  const std::string source = file == "-" ? "circuit" : std::filesystem::path(file).stem().string();
  const Drawing drawing = draw(*one.compilation, source, view ? &*view : nullptr, wanted.sheets,
                               wanted.findings ? findings_for_sheet(judged(one, talk.today), circuit) : std::vector<FindingMark>{});
  for (const std::string& note : drawing.notes) say(talk, file + ": " + note, exit_code::done);
  if (wanted.verify)  // a sheet that says something else than its text is not written
    if (const int code = verified(wanted, circuit, geometry_json(drawing), talk); code != exit_code::done) return code;
  return wanted.output.empty() ? exit_code::done : write_drawing(wanted, drawing, talk);
}

int run_draw(const Call& call, Talk& talk) {
  Wanted wanted{"", call.value("--output"), call.value("--state"), call.value("--geometry"), {call.value("--format"), call.has("--legible-on-a4")}, call.has("--verify"), call.has("--findings"), 200};
  const std::string ending = std::filesystem::path(wanted.output).extension().string();
  if (wanted.output.empty() && !wanted.verify) return say(talk, "draw needs --output, for example: --output press.pdf", exit_code::called_wrongly);
  if (!wanted.output.empty() && std::find(std::begin(endings), std::end(endings), ending) == std::end(endings))
    return say(talk, fmt::format("{} does not end with .pdf, .svg, .png, .json or .dxf", wanted.output), exit_code::called_wrongly);
  if (ending == ".dxf" && (wanted.findings || !wanted.state.empty()))
    return say(talk, "a .dxf shows the circuit at rest: --state and --findings go with .pdf, .svg, .png or .json", exit_code::called_wrongly);
  if (!wanted.geometry.empty() && (!wanted.verify || !wanted.output.empty()))
    return say(talk, "--geometry is a drawing to read: it goes with --verify and without --output", exit_code::called_wrongly);
  if (call.files.size() != 1 || std::filesystem::is_directory(call.files.front()))
    return say(talk, "draw takes one circuit file at a time", exit_code::called_wrongly);
  wanted.file = call.files.front();
  wanted.dots_per_inch = std::strtod(call.value("--dpi", "200").c_str(), nullptr);
  if (!(wanted.dots_per_inch >= 50 && wanted.dots_per_inch <= 600))
    return say(talk, "--dpi takes a number from 50 to 600", exit_code::called_wrongly);
  if (call.has("--format") && std::find(std::begin(formats), std::end(formats), wanted.sheets.format) == std::end(formats))
    return say(talk, fmt::format("--format takes {}, not {}", fmt::join(formats, ", "), wanted.sheets.format), exit_code::called_wrongly);
  return draw_one(wanted, talk);
}

}  // namespace

extern const Verb draw_verb;
const Verb draw_verb{"draw", "FILE", "draw the sheet or the sheets in ISO 1219 symbols", examples, options, run_draw};

}  // namespace ferrule
