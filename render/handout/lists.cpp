// What a handout lists: symbols with their meaning, parts with their data, the steps of the work.
#include <algorithm>

#include "render/captions.hpp"
#include "render/cycle.hpp"
#include "render/handout/lesson.hpp"
#include "render/plots/diagrams.hpp"
#include "render/sheet/recorder.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule::handout {
namespace {

// What tells one row of positions from another.
std::string row_key(const Part& part) {
  std::string key;
  for (const PositionRow& row : part.positions) {
    key += "|" + row.name;
    for (const RowPath& path : row.paths)
      for (const std::string& port : path.ports) key += " " + port + std::to_string(static_cast<int>(path.kind));
    for (const Actuation& by : row.by) key += " " + by.means + by.through;
  }
  return key;
}

}  // namespace

std::vector<SymbolShown> symbols_that_occur(const Lesson& lesson) {
  const Circuit& circuit = lesson.circuit();
  std::vector<SymbolShown> all;
  for (const Part& part : circuit.parts) {
    if (part.definition == nullptr || part.definition->is_pipe) continue;
    const auto figures = symbols::figures_of(*lesson.compilation.library, circuit, circuit.parts.id_of(part));
    if (figures.empty()) continue;
    const std::string key = part.definition->name + " " + figures.front().name + row_key(part);
    const auto same = std::find_if(all.begin(), all.end(), [&](const SymbolShown& one) { return one.key == key; });
    if (same != all.end()) same->parts.push_back(&part);
    else all.push_back({key, {&part}, figures.front()});
  }
  return all;
}

pages::Figure symbol_figure(const symbols::Figure& figure, double module_mm) {
  constexpr double line_mm = 0.25;
  const symbols::Extent extent = symbols::extent_of(figure.strokes);
  return {symbols::inks_of(figure, {-extent.left * module_mm, -extent.top * module_mm}, module_mm, line_mm),
          (extent.right - extent.left) * module_mm, (extent.bottom - extent.top) * module_mm};
}

std::string tags_of(const std::vector<const Part*>& parts) {
  std::string tags;
  for (const Part* part : parts) tags += (tags.empty() ? "" : ", ") + part->tag;
  return tags;
}

std::string term_of(const Lesson& lesson, const Definition& definition) {
  const std::string said = lesson.say.word("kind", definition.name);
  return said == definition.name ? definition.term : said;
}

namespace {

pages::Cell text(std::string words) { return {std::move(words), {}}; }

void add_symbols(const Lesson& lesson, std::vector<pages::Block>& blocks) {
  const Phrases& say = lesson.say;
  pages::Table table{{{say("head.symbol"), true, 0}, {say("head.component"), false, 0}, {say("head.codes"), false, 0}, {say("head.function"), false, 0}}, {}};
  for (const SymbolShown& one : symbols_that_occur(lesson)) {
    const Definition& definition = *one.parts.front()->definition;
    const std::string translated = say.word("says", definition.name);
    table.rows.push_back({{"", symbol_figure(one.figure)}, text(term_of(lesson, definition)), text(tags_of(one.parts)),
                          text(function_line(translated == definition.name ? definition.says : translated, one.parts, say("its")))});
  }
  blocks.push_back(pages::Heading{say("symbols"), 1});
  blocks.push_back(std::move(table));
}

void add_parts(const Lesson& lesson, std::vector<pages::Block>& blocks) {
  const Phrases& say = lesson.say;
  pages::Table table{{{say("head.code"), false, 0}, {say("head.component"), false, 0}, {say("head.data"), false, 0}}, {}};
  for (const Part& part : lesson.circuit().parts) {
    if (part.definition == nullptr || part.definition->is_pipe) continue;
    const std::string name = term_of(lesson, *part.definition) + (part.description.empty() ? "" : " \"" + part.description + "\"");
    table.rows.push_back({text(part.tag), text(name), text(data_line(part))});
  }
  blocks.push_back(pages::Heading{say("parts"), 1});
  blocks.push_back(std::move(table));
}

void add_work(const Lesson& lesson, std::vector<pages::Block>& blocks) {
  const Phrases& say = lesson.say;
  const auto cycle = cycle_table(lesson.circuit());
  if (!cycle) return;
  pages::Table table{{{say("head.step"), true, 0}, {say("head.name"), false, 0}}, {}};
  for (const std::string& signal : cycle->signals) table.columns.push_back({signal, true, 0});
  table.columns.push_back({say("head.ends"), false, 0});
  for (const auto& row : cycle->rows) {
    std::vector<pages::Cell> cells{text(std::to_string(table.rows.size() + 1)), text(row.name)};
    for (const std::string& mark : row.marks) cells.push_back(text(mark));
    cells.push_back(text(row.ends));
    table.rows.push_back(std::move(cells));
  }
  blocks.push_back(pages::Heading{say("work"), 1});
  blocks.push_back(pages::Paragraph{say("work.marks")});
  blocks.push_back(std::move(table));
}

void add_displacement(const Lesson& lesson, std::vector<pages::Block>& blocks) {
  const working::Course course = working::course_of(lesson.book);
  if (course.lanes.empty()) return;
  const double width = pages::room_on(lesson.paper, false).w, height = plots::displacement_height(course, plots::Titled::no);
  sheet::Recorder recorder;
  plots::displacement_diagram(recorder, {0, 0, width, height}, course, plots::Along::steps, plots::Titled::no);
  blocks.push_back(pages::Heading{lesson.say("displacement"), 1});
  blocks.push_back(pages::Paragraph{lesson.say("displacement.steps")});
  blocks.push_back(pages::Figure{std::move(recorder.inks), width, height});
}

pages::Figure line_sample(const StateLook& look) {
  constexpr double length = 30, line_mm = 0.25, height = 2;
  sheet::Ink line = sheet::line({{0, height / 2}, {length, height / 2}}, look.widths * line_mm, look.pattern);
  line.colour = look.colour;
  pages::Figure figure{{line}, length, height};
  if (look.hollow) {
    line.width *= hollow_share;
    line.colour = canvas::white;
    figure.inks.push_back(line);
  }
  return figure;
}

void add_lines(const Lesson& lesson, std::vector<pages::Block>& blocks) {
  const Phrases& say = lesson.say;
  pages::Table table{{{say("head.line"), true, 0}, {say("head.meaning"), false, 0}}, {}};
  for (const LineState state : {LineState::fed, LineState::circulates, LineState::controlled, LineState::trapped, LineState::blocked, LineState::returned,
                                LineState::drained, LineState::suction, LineState::open}) {
    const StateLook& look = look_of(state);
    table.rows.push_back({{"", line_sample(look)}, text(say("line." + std::string(look.name)))});
  }
  blocks.push_back(pages::Heading{say("lines"), 1});
  blocks.push_back(std::move(table));
}

}  // namespace

pages::Section lists(const Lesson& lesson) {
  pages::Section section;
  add_symbols(lesson, section.blocks);
  add_lines(lesson, section.blocks);
  add_parts(lesson, section.blocks);
  add_work(lesson, section.blocks);
  add_displacement(lesson, section.blocks);
  return section;
}

}  // namespace ferrule::handout
