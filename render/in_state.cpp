#include "render/in_state.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>


namespace ferrule {
namespace {

using sheet::Point, sheet::Rect;

constexpr double least_flow = 1e-8;      // m3/s, 0.6 mL/min: less is leakage, and no arrow points there
constexpr double least_pressure = 1000;  // Pa: a line at rest below it says nothing

struct Showing {
  DrawnSheet& page;
  const Sketch& sketch;
  const Circuit& circuit;
  const StateView& view;
  double module, capital;                      // mm
  std::map<std::string, const DrawnSymbol*> symbols;
  std::vector<Rect> taken;                     // what no text may touch
};

const CircuitNet* source_of(const Sketch& sketch, const DrawnNet& net) {
  for (const SketchNet& known : sketch.nets)
    if (known.source >= 0 && known.id == net.logical) return &sketch.sources.nets[static_cast<std::size_t>(known.source)];
  return nullptr;
}

NodeId node_of(const Showing& in, const NetEnd& end) { return in.circuit.ports[port_of(in.sketch.sources, end)].node; }

// ---------------------------------------------------------------- arrows

constexpr double arrow_length = 1.6;  // modules

// On the straight piece that begins at the port, pointing away from it; none when the line is too short for an arrow.
std::optional<DrawnArrow> arrow_from(const DrawnNet& net, Point port, double module) {
  for (const DrawnPath& path : net.paths) {
    if (path.points.size() < 2) continue;
    for (const bool backwards : {false, true}) {
      const Point from = backwards ? path.points.back() : path.points.front();
      const Point to = backwards ? path.points[path.points.size() - 2] : path.points[1];
      const double length = std::hypot(to.x - from.x, to.y - from.y);
      if (std::hypot(from.x - port.x, from.y - port.y) > 1e-6 || length < 2.5 * module) continue;
      const double dx = (to.x - from.x) / length, dy = (to.y - from.y) / length;
      const double tip = std::min(length / 2, 4 * module) + arrow_length / 2 * module;
      return DrawnArrow{{from.x + dx * tip, from.y + dy * tip}, dx, dy};
    }
  }
  return {};
}

DrawnArrow turned_round(const DrawnArrow& arrow, double module) {
  const double length = arrow_length * module;
  return {{arrow.tip.x - length * arrow.dx, arrow.tip.y - length * arrow.dy}, -arrow.dx, -arrow.dy};
}

void add_arrow(const Showing& in, DrawnNet& net, const DrawnNet::End& end) {
  const PartId part = in.circuit.part_named(end.symbol);
  const PortId port = part ? in.circuit.port_of(part, end.port) : PortId{};
  const auto symbol = in.symbols.find(end.symbol);
  if (!port || symbol == in.symbols.end() || std::fabs(in.view.given[port.index]) < least_flow) return;
  for (const DrawnPort& drawn : symbol->second->ports) {
    if (drawn.name != end.port) continue;
    const auto arrow = arrow_from(net, drawn.at, in.module);
    if (arrow) net.arrows.push_back(in.view.given[port.index] > 0 ? *arrow : turned_round(*arrow, in.module));
  }
}

// ---------------------------------------------------------------- pressures and flows

// The greatest pressure on the net, and the greatest flow that a part gives to it or takes.
std::vector<std::string> values_of(const Showing& in, const CircuitNet& source) {
  double pressure = std::nan(""), flow = 0;
  for (const NetEnd& end : source.ends) {
    const double here = in.view.pressure[node_of(in, end).index];
    if (std::isfinite(here) && !(here <= pressure)) pressure = here;
    if (end.port) flow = std::max(flow, std::fabs(in.view.given[end.port.index]));
  }
  std::vector<std::string> rows;
  const bool flows = flow >= least_flow;
  if (std::isfinite(pressure) && (flows || pressure >= least_pressure)) rows.push_back(shown({pressure, dimension::pressure}));
  if (flows) rows.push_back(shown({flow, dimension::flow}));
  return rows;
}

struct Stretch {
  Point a, b;
  double length() const { return std::fabs(b.x - a.x) + std::fabs(b.y - a.y); }
  Rect box() const { return {std::min(a.x, b.x), std::min(a.y, b.y), std::fabs(b.x - a.x), std::fabs(b.y - a.y)}; }
};

// Straight pieces, the longest first.
std::vector<Stretch> stretches_of(const DrawnNet& net) {
  std::vector<Stretch> all;
  for (const DrawnPath& path : net.paths)
    for (std::size_t i = 1; i < path.points.size(); ++i) all.push_back({path.points[i - 1], path.points[i]});
  std::stable_sort(all.begin(), all.end(), [](const Stretch& p, const Stretch& q) { return p.length() > q.length(); });
  return all;
}

bool is_free(const Showing& in, const Rect& box) {
  return std::none_of(in.taken.begin(), in.taken.end(), [&](const Rect& other) { return sheet::closer(box, other, 0.4 * in.module); });
}

// Beside the middle of the piece, else nearer to its ends, on either side.
std::optional<Rect> place_beside(const Showing& in, const Stretch& stretch, double width, double height) {
  const bool upright = stretch.a.x == stretch.b.x;
  const double gap = 0.8 * in.module;
  const double free = std::max(0.0, stretch.length() - (upright ? height : width));
  const Rect piece = stretch.box();
  for (const double share : {0.5, 0.3, 0.7, 0.1, 0.9, 0.0, 1.0})
    for (const bool first : {true, false}) {
      Rect box{piece.x + share * free, first ? piece.y - gap - height : piece.y + gap, width, height};
      if (upright) box = {first ? piece.x + gap : piece.x - gap - width, piece.y + share * free, width, height};
      if (is_free(in, box)) return box;
    }
  return {};
}

void add_values(Showing& in, const DrawnNet& net, const std::vector<std::string>& rows) {
  const double pitch = 1.6 * in.capital, below = 0.3 * in.capital;  // tails of letters
  double width = 0;
  for (const std::string& row : rows) width = std::max(width, canvas::measured(row, in.capital).width);
  const double height = pitch * static_cast<double>(rows.size()) - pitch + in.capital + below;
  for (const Stretch& stretch : stretches_of(net)) {
    const auto box = place_beside(in, stretch, width, height);
    if (!box) continue;
    in.taken.push_back(*box);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      DrawnLabel label;
      label.id = net.id + ":state." + std::to_string(i + 1);
      label.owner = net.id;
      label.kind = "line";
      label.text = rows[i];
      label.baseline = {box->x, box->y + in.capital + static_cast<double>(i) * pitch};
      label.box = {box->x, label.baseline.y - in.capital, canvas::measured(rows[i], in.capital).width, in.capital + below};
      in.page.labels.push_back(std::move(label));
    }
    return;
  }
}

std::vector<Rect> taken_on(const DrawnSheet& page) {
  std::vector<Rect> taken;
  for (const DrawnSymbol& symbol : page.symbols) taken.push_back(symbol.box);
  for (const DrawnLabel& label : page.labels) taken.push_back(label.box);
  for (const DrawnNet& net : page.nets)
    for (const Stretch& stretch : stretches_of(net)) taken.push_back(stretch.box());
  return taken;
}

// ---------------------------------------------------------------- valves

// The tag of a solenoid goes with the end of the row that it names.
void follow_valves(Showing& in) {
  for (std::size_t i = 0; i < in.sketch.items.size(); ++i) {
    const SketchItem& item = in.sketch.items[i];
    if (item.figures.empty() || !item.figures.front().room) continue;
    const symbols::Figure& figure = item.figures.front();
    const symbols::Extent drawn = symbols::extent_of(figure.strokes), room = *figure.room;
    const auto symbol = in.symbols.find(in.sketch.problem.items[i].id);
    if (symbol == in.symbols.end() || symbol->second->mirror || symbol->second->quarters != 0) continue;
    for (const symbols::OperatorEnd& end : figure.operators) {
      const double dx = (end.left ? drawn.left - room.left : drawn.right - room.right) * in.module;
      for (DrawnLabel& label : in.page.labels) {
        if (label.owner != symbol->first || label.text != end.tag) continue;
        label.box.x += dx;
        label.baseline.x += dx;
      }
    }
  }
}

// A valve inside a frame cannot be drawn shifted.
bool marks_boxes(const Sketch& sketch, const StateView& view) {
  return std::any_of(sketch.items.begin(), sketch.items.end(), [&](const SketchItem& item) {
    return item.part && view.position[item.part.index] >= 0 && !item.figures.empty() && item.figures.front().fixed && !item.figures.front().room;
  });
}

}  // namespace

LineState line_state_of(const Circuit& circuit, const CircuitNets& nets, const CircuitNet& net, const StateView& view) {
  for (const NetEnd& end : net.ends)
    if (end.connection >= 0)
      return net.function == LineFunction::suction ? LineState::suction : net.function == LineFunction::drain ? LineState::drained : LineState::returned;
  const NodeId node = circuit.ports[port_of(nets, net.ends.front())].node;
  return line_state(view.condition[node.index], view.pressure[node.index]);
}

void show_state(DrawnSheet& page, const Sketch& sketch, const Circuit& circuit, const StateView& view, const Drawing& drawing) {
  Showing in{page, sketch, circuit, view, drawing.module_mm, drawing.capital_mm, {}, {}};
  for (const DrawnSymbol& symbol : page.symbols) in.symbols[symbol.id] = &symbol;
  follow_valves(in);
  for (DrawnNet& net : page.nets) {
    const CircuitNet* source = source_of(sketch, net);
    if (source == nullptr || source->ends.empty()) continue;
    net.state = line_state_of(in.circuit, in.sketch.sources, *source, in.view);
    for (const DrawnNet::End& end : net.ends) add_arrow(in, net, end);
  }
  in.taken = taken_on(page);
  for (const DrawnNet& net : page.nets)
    if (const CircuitNet* source = source_of(sketch, net)) add_values(in, net, values_of(in, *source));
}

sheet::Panel state_legend(const DrawnSheet& page, const Sketch& sketch, const StateView& view, const Drawing& drawing) {
  constexpr double heading = 3.5, sample = 24, pitch = 5;
  const std::string title = "State: " + view.name;
  sheet::Panel panel{{sheet::words({0, heading}, title, heading)}, canvas::measured(title, heading).width, 10};
  std::set<LineState> met;
  for (const DrawnNet& net : page.nets)
    if (net.state) met.insert(*net.state);
  for (const LineState state : met) {
    const StateLook& look = look_of(state);
    sheet::Ink line = sheet::line({{0, panel.height}, {sample, panel.height}}, look.widths * drawing.line_mm, look.pattern);
    line.colour = look.colour;
    panel.inks.push_back(line);
    if (look.hollow) {
      line.width *= hollow_share;
      line.colour = canvas::white;
      panel.inks.push_back(line);
    }
    panel.inks.push_back(sheet::words({sample + 4, panel.height + drawing.capital_mm / 2}, std::string(look.words), drawing.capital_mm));
    panel.width = std::max(panel.width, sample + 4 + canvas::measured(look.words, drawing.capital_mm).width);
    panel.height += pitch;
  }
  if (marks_boxes(sketch, view)) {
    const std::string words = "framed twice: position of a valve in this state";
    panel.inks.push_back(sheet::words({0, panel.height + drawing.capital_mm / 2}, words, drawing.capital_mm));
    panel.width = std::max(panel.width, canvas::measured(words, drawing.capital_mm).width);
    panel.height += pitch;
  }
  panel.height -= 3;
  return panel;
}

}  // namespace ferrule
