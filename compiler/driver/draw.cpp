// ferrule draw: the sheet of a circuit, in the format its file name ends with.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <optional>

#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/judged.hpp"
#include "compiler/driver/outputs.hpp"
#include "render/draw.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule draw press.fer --output press.pdf", "the sheet, with searchable text"},
    {"ferrule draw press.fer --output press.png --dpi 300", "a picture"},
    {"ferrule draw press.fer --state squeeze --output squeeze.pdf", "how the oil runs in one step of the cycle"},
    {"ferrule draw press.fer --output press.json", "the geometry: symbols, ports, lines and texts in mm"},
};
constexpr Option options[] = {
    {"--output", "PATH", "where to; ends with .pdf, .svg, .png or .json"},
    {"--state", "NAME", "in this state: valves shifted, lines by their condition, pressures and flows"},
    {"--dpi", "N", "dots per inch of a .png, 50 to 600 (default 200)"},
};

constexpr std::string_view endings[] = {".pdf", ".svg", ".png", ".json"};

int say(Talk& talk, const std::string& what, int code) {
  talk.err += "ferrule: " + safe(what) + "\n";
  return code;
}

struct Wanted {
  std::string file, output, state;
  double dots_per_inch = 200;
};

int draw_one(const Wanted& wanted, Talk& talk) {
  const auto& [file, output, state, dots_per_inch] = wanted;
  const Compiled one = compiled(file, talk);
  if (!one.compilation || one.compilation->unreadable) return exit_code::unreadable;
  if (has_faults(one, talk)) return exit_code::found;
  const std::filesystem::path path(output);
  std::optional<StateView> view;
  if (!state.empty()) {
    const Computed known = computed(one.compilation->circuit);
    const auto index = known.book->state_named(state);
    if (!index) return say(talk, fmt::format("there is no state {}; there are: {}", state, fmt::join(told_names(*known.book), ", ")), exit_code::called_wrongly);
    view = view_of(*known.book, *index);
  }
  const Drawing drawing = draw(*one.compilation, file == "-" ? "circuit" : std::filesystem::path(file).stem().string(), view ? &*view : nullptr);
  for (const std::string& note : drawing.notes) say(talk, file + ": " + note, exit_code::done);
  const DrawnFile drawn = file_of(drawing, path.extension().string(), talk.source_date_epoch, dots_per_inch);
  if (!drawn.error.empty()) return say(talk, drawn.error, exit_code::not_written);
  if (const std::string why = written(output, drawn.bytes, talk.out); !why.empty())
    return say(talk, fmt::format("{} cannot be written: {}", output, why), exit_code::not_written);
  return exit_code::done;
}

int run_draw(const Call& call, Talk& talk) {
  const std::string output = call.value("--output");
  const std::string ending = std::filesystem::path(output).extension().string();
  if (output.empty()) return say(talk, "draw needs --output, for example: --output press.pdf", exit_code::called_wrongly);
  if (std::find(std::begin(endings), std::end(endings), ending) == std::end(endings))
    return say(talk, fmt::format("{} does not end with .pdf, .svg, .png or .json", output), exit_code::called_wrongly);
  if (call.files.size() != 1 || std::filesystem::is_directory(call.files.front()))
    return say(talk, "draw takes one circuit file at a time", exit_code::called_wrongly);
  const double dots_per_inch = std::strtod(call.value("--dpi", "200").c_str(), nullptr);
  if (!(dots_per_inch >= 50 && dots_per_inch <= 600))
    return say(talk, "--dpi takes a number from 50 to 600", exit_code::called_wrongly);
  return draw_one({call.files.front(), output, call.value("--state"), dots_per_inch}, talk);
}

}  // namespace

extern const Verb draw_verb;
const Verb draw_verb{"draw", "FILE", "draw the sheet in ISO 1219 symbols", examples, options, run_draw};

}  // namespace ferrule
