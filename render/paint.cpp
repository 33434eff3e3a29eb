#include <algorithm>
#include <map>

#include "render/drawn_inks.hpp"
#include "render/places.hpp"

namespace ferrule {
namespace {

using layout::NetKind;

// A pilot or drain stays dashed in any state.
void paint_by_state(const DrawnNet& net, const Drawing& drawing, canvas::Canvas& canvas) {
  const StateLook& look = look_of(*net.state);
  canvas.set_colour(look.colour);
  for (const DrawnPath& path : net.paths) {
    const bool main = pattern_of(path.look, drawing.drain_like_pilot) == sheet::Pattern::solid;
    const double width = drawing.line_mm * (main ? look.widths : std::min(look.widths, 2.0));
    canvas.polyline(path.points, width, main ? look.pattern : pattern_of(path.look, drawing.drain_like_pilot));
    if (!look.hollow || !main) continue;
    canvas.set_colour(canvas::white);
    canvas.polyline(path.points, width * hollow_share);
    canvas.set_colour(look.colour);
  }
  for (const auto& dot : net.junctions) canvas.disc(dot, 0.45 * drawing.module_mm);
  const double length = 1.6 * drawing.module_mm, half = 0.7 * drawing.module_mm;
  for (const DrawnArrow& arrow : net.arrows) {
    const sheet::Point foot{arrow.tip.x - length * arrow.dx, arrow.tip.y - length * arrow.dy};
    canvas.polygon({arrow.tip, {foot.x - half * arrow.dy, foot.y + half * arrow.dx}, {foot.x + half * arrow.dy, foot.y - half * arrow.dx}});
  }
  canvas.set_colour(canvas::black);
}

void paint_as_usual(const DrawnNet& net, const Drawing& drawing, canvas::Canvas& canvas) {
  for (const DrawnPath& path : net.paths) sheet::paint(inks_of(path, drawing), canvas);
  for (const auto& dot : net.junctions) sheet::paint({dot_at(dot, drawing)}, canvas);
}

// "pressure line, fed: 0P1.P, 0V1.P"; without a state as usual.
std::string title_of(const DrawnNet& net) {
  std::string title = net.kind == NetKind::mechanical ? "shaft or rod" : std::string(word_of(net.kind)) + " line";
  if (net.state) title += ", " + std::string(look_of(*net.state).name);
  for (const auto& end : net.ends) title += (&end == net.ends.data() ? ": " : ", ") + end.symbol + "." + end.port;
  return title;
}

void paint_net(const DrawnNet& net, const Drawing& drawing, canvas::Canvas& canvas) {
  const std::string state = net.state ? " " + std::string(look_of(*net.state).name) : "";
  canvas.begin_group("net-" + net.id, "net " + std::string(word_of(net.kind)) + state, title_of(net));
  if (net.state) paint_by_state(net, drawing, canvas);
  else paint_as_usual(net, drawing, canvas);
  canvas.end_group();
}

// Labels by owner; lines and symbols may share a name, so the kind decides whose it is.
using Labels = std::multimap<std::string, const DrawnLabel*>;

bool of_a_line(const DrawnLabel& label) { return label.kind == "line"; }

void paint_labels(const Labels& labels, const std::string& owner, bool lines, const Drawing& drawing, canvas::Canvas& canvas) {
  const auto [from, to] = labels.equal_range(owner);
  for (auto it = from; it != to; ++it) {
    const DrawnLabel& label = *it->second;
    if (of_a_line(label) != lines) continue;
    sheet::paint(inks_of(label, drawing), canvas);
  }
}

void paint_group(const DrawnGroup& group, const Labels& labels, const Drawing& drawing, canvas::Canvas& canvas) {
  canvas.begin_group("group-" + group.id, "enclosure", group.title);
  sheet::paint(inks_of(group, drawing), canvas);
  paint_labels(labels, group.id, false, drawing, canvas);
  canvas.end_group();
}

void paint_symbol(const DrawnSymbol& symbol, const Labels& labels, const Drawing& drawing, canvas::Canvas& canvas) {
  canvas.begin_group("symbol-" + symbol.id, "symbol " + symbol.kind, symbol.title);
  sheet::paint(symbol.inks, canvas);
  paint_labels(labels, symbol.id, false, drawing, canvas);
  canvas.end_group();
}

}  // namespace

void paint(const DrawnSheet& page, const Drawing& drawing, canvas::Canvas& canvas) {
  canvas.new_sheet(page.format.width, page.format.height, page.id);
  canvas.begin_group("sheet-" + page.id + "-frame", "frame", "");
  sheet::paint(page.furniture, canvas);
  canvas.end_group();
  if (!page.findings.empty()) {
    canvas.begin_group("sheet-" + page.id + "-findings", "findings", "");
    sheet::paint(bands_of(page, drawing), canvas);
    canvas.end_group();
  }
  Labels labels;
  for (const DrawnLabel& label : page.labels) labels.emplace(label.owner, &label);
  for (const DrawnGroup& group : page.groups) paint_group(group, labels, drawing, canvas);
  for (const DrawnSymbol& symbol : page.symbols) paint_symbol(symbol, labels, drawing, canvas);
  for (const DrawnNet& net : page.nets) {
    paint_net(net, drawing, canvas);
    paint_labels(labels, net.id, true, drawing, canvas);
  }
  paint_labels(labels, "", false, drawing, canvas);
  for (const DrawnFinding& finding : page.findings) {
    canvas.begin_group("sheet-" + page.id + "-finding-" + std::to_string(finding.number), "finding", finding.title);
    sheet::paint(flag_of(finding, drawing), canvas);
    canvas.end_group();
  }
  add_places(page, drawing, canvas);
}

}  // namespace ferrule
