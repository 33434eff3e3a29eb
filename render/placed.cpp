#include "render/placed.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <tuple>

#include "render/layout/sides.hpp"
#include "render/placed_labels.hpp"

namespace ferrule {
namespace {

using layout::NetKind;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// By net, item and pin: where the net ends for one pin of a reservoir; several when it falls at several places.
using ByEnd = std::map<std::tuple<int, int, int>, std::vector<const layout::TankMark*>>;

ByEnd by_end(const std::vector<layout::TankMark>& all) {
  ByEnd index;
  for (const layout::TankMark& mark : all) index[{mark.net, mark.end.item, mark.end.pin}].push_back(&mark);
  return index;
}

struct Placing {
  const Sketch& sketch;
  const layout::Layout& layout;
  Library& library;
  double half, module, line;            // mm
  std::map<std::pair<int, int>, NetKind> looks;   // of the line at an item's pin
  std::map<const layout::TankMark*, NetKind> ends;  // of the line at a mark or an entry
  ByEnd marks, entries;
  std::map<const layout::TankMark*, std::string> mark_ids;

  sheet::Point mm(layout::Point p) const { return {p.x * half, p.y * half}; }
  sheet::Rect rect(const layout::Box& b) const { return {b.left * half, b.top * half, (b.right - b.left) * half, (b.bottom - b.top) * half}; }
};

const layout::Pose& pose_of(const Placing& in, int item) { return in.sketch.problem.items[at(item)].poses[at(in.layout.items[at(item)].pose)]; }

bool in_trough(const Placing& in, int item) { return in.sketch.problem.items[at(item)].in_trough; }

std::span<const layout::TankMark* const> in_reservoir(const ByEnd& all, int net, layout::End end) {
  const auto found = all.find({net, end.item, end.pin});
  return found == all.end() ? std::span<const layout::TankMark* const>() : std::span(found->second);
}

std::vector<layout::Point> pin_places(const Placing& in, int net, layout::End end) {
  std::vector<layout::Point> places;
  for (const ByEnd* all : {&in.marks, &in.entries})
    for (const layout::TankMark* mark : in_reservoir(*all, net, end)) places.push_back(mark->at);
  if (!places.empty() || in.sketch.problem.items[at(end.item)].trough) return places;
  const layout::Point origin = in.layout.items[at(end.item)].at, pin = pose_of(in, end.item).pins[at(end.pin)].at;
  return {{origin.x + pin.x, origin.y + pin.y}};
}

// "0Z1~n3", and with a number where several marks of a reservoir stand in one net.
void name_marks(Placing& in) {
  std::map<std::pair<int, int>, int> before;
  for (const layout::TankMark& mark : in.layout.marks) {
    const int number = ++before[{mark.net, mark.reservoir}];
    in.mark_ids[&mark] = in.sketch.problem.items[at(mark.reservoir)].id + "~" + in.sketch.problem.nets[at(mark.net)].id + (number == 1 ? "" : "~" + std::to_string(number));
  }
}

// The names of a trough's rim points: the pin's own, with a number when a line falls at several places.
std::string entry_name(const Placing& in, const layout::TankMark& entry) {
  const std::string& name = in.sketch.items[at(entry.reservoir)].connections[at(entry.end.pin)];
  const auto same = in_reservoir(in.entries, entry.net, entry.end);
  const auto index = std::find(same.begin(), same.end(), &entry) - same.begin();
  return index == 0 ? name : name + "#" + std::to_string(index + 1);
}

std::optional<NetKind> look_at(const layout::Routed& net, layout::Point place) {
  for (const layout::Path& path : net.paths)
    if (!path.points.empty() && (path.points.front() == place || path.points.back() == place)) return path.look;
  return {};
}

// Which look the line has that meets each pin.
void find_looks(Placing& in) {
  for (std::size_t n = 0; n < in.layout.nets.size(); ++n)
    for (const layout::End& end : in.sketch.problem.nets[n].ends)
      for (const layout::Point place : pin_places(in, static_cast<int>(n), end))
        if (const auto look = look_at(in.layout.nets[n], place)) in.looks[{end.item, end.pin}] = *look;
  for (const auto* all : {&in.layout.marks, &in.layout.entries})
    for (const layout::TankMark& mark : *all)
      if (const auto look = look_at(in.layout.nets[at(mark.net)], mark.at)) in.ends[&mark] = *look;
}

PortUse use_of(NetKind look) { return look == NetKind::pilot ? PortUse::pilot : look == NetKind::drain ? PortUse::drain : PortUse::main; }

// ---------------------------------------------------------------- symbols

DrawnSymbol described(const Placing& in, int index) {
  const layout::Item& item = in.sketch.problem.items[at(index)];
  DrawnSymbol symbol;
  symbol.id = item.id;
  symbol.kind = in.sketch.items[at(index)].kind;
  symbol.title = in.sketch.items[at(index)].title;
  symbol.stands_for = in.sketch.items[at(index)].stands_for;
  symbol.family = item.family;
  symbol.tier = static_cast<int>(in.layout.items[at(index)].tier);
  symbol.branch = in.layout.items[at(index)].branch;
  return symbol;
}

symbols::Figure figure_of(const Placing& in, int index) {
  const layout::Pose& pose = pose_of(in, index);
  symbols::Figure figure = symbols::posed(in.sketch.items[at(index)].figures, pose);
  for (std::size_t pin = 0; pin < pose.pins.size(); ++pin)
    if (const auto look = in.looks.find({index, static_cast<int>(pin)}); look != in.looks.end() && use_of(look->second) != PortUse::main)
      symbols::stub_as(figure, pose.pins[pin].name, use_of(look->second));
  return figure;
}

DrawnSymbol drawn_item(const Placing& in, int index) {
  const layout::Placed& place = in.layout.items[at(index)];
  const layout::Pose& pose = pose_of(in, index);
  DrawnSymbol symbol = described(in, index);
  symbol.box = sheet::moved(in.rect(pose.box), in.mm(place.at));
  symbol.quarters = pose.quarters;
  symbol.mirror = pose.flip;
  symbol.centre = in.mm({place.at.x + pose.centre.x, place.at.y + pose.centre.y});
  for (const layout::Pin& pin : pose.pins) symbol.ports.push_back({pin.name, in.mm({place.at.x + pin.at.x, place.at.y + pin.at.y}), pin.side, pin.use, {}, {}});
  symbol.inks = symbols::inks_of(figure_of(in, index), in.mm(place.at), in.module, in.line);
  return symbol;
}

// ---------------------------------------------------------------- troughs and marks

// The place where the line of a strainer crosses the rim.
sheet::Point above_strainer(const Placing& in, int strainer, double rim) {
  const layout::Pose& pose = pose_of(in, strainer);
  const layout::Point origin = in.layout.items[at(strainer)].at;
  for (std::size_t pin = 0; pin < pose.pins.size(); ++pin)
    if (pose.pins[pin].side == Side::above) return {(origin.x + pose.pins[pin].at.x) * in.half, rim};
  return {origin.x * in.half, rim};
}

void add_strainer(const Placing& in, DrawnSymbol& trough, int strainer) {
  const DrawnSymbol inner = drawn_item(in, strainer);
  trough.parts.push_back(inner.id);
  sheet::append(trough.inks, inner.inks);
  const sheet::Point rim = above_strainer(in, strainer, trough.box.y);
  double top = inner.box.y;
  std::string port_above;
  for (const DrawnPort& port : inner.ports)
    if (port.side == Side::above) {
      top = port.at.y;
      port_above = port.name;
    }
  trough.inks.push_back(sheet::line({rim, {rim.x, top}}, in.line));
  trough.ports.push_back({inner.id, rim, Side::above, PortUse::main, inner.id, port_above});
}

DrawnSymbol drawn_trough(const Placing& in, int index) {
  const layout::Placed& place = in.layout.items[at(index)];
  const SketchItem& source = in.sketch.items[at(index)];
  DrawnSymbol symbol = described(in, index);
  symbol.kind = "reservoir";
  symbol.box = {(place.at.x - place.trough_width / 2.0) * in.half, place.at.y * in.half, place.trough_width * in.half, place.trough_height * in.half};
  symbol.centre = symbol.box.middle();
  std::vector<symbols::TroughEntry> entries;
  for (const layout::TankMark& entry : in.layout.entries) {
    if (entry.reservoir != index) continue;
    const sheet::Point rim = in.mm(entry.at);
    const auto look = in.ends.find(&entry);
    entries.push_back({entry_name(in, entry), (rim.x - symbol.centre.x) / in.module, false, look == in.ends.end() ? PortUse::main : use_of(look->second)});
    symbol.ports.push_back({entries.back().port, rim, Side::above, PortUse::main, {}, {}});
  }
  const bool covered = std::any_of(in.sketch.problem.items.begin(), in.sketch.problem.items.end(),
                                   [&](const layout::Item& item) { return item.on_cover && item.host == index; });
  const symbols::Figure figure = symbols::trough_figure(symbol.box.w / in.module, symbol.box.h / in.module, covered, entries);
  symbol.inks = symbols::inks_of(figure, {symbol.centre.x, symbol.box.y}, in.module, in.line);
  for (const int strainer : source.inside) add_strainer(in, symbol, strainer);
  return symbol;
}

// The sign of a reservoir at the end of a line: origin of its port, 3 M high, 2 M wide (ISO 1219-1).
DrawnSymbol drawn_mark(const Placing& in, const layout::TankMark& mark) {
  const layout::Net& net = in.sketch.problem.nets[at(mark.net)];
  DrawnSymbol symbol;
  symbol.id = in.mark_ids.at(&mark);
  symbol.kind = symbol.family = "tankmark";
  symbol.title = in.sketch.items[at(mark.reservoir)].title;
  symbol.stands_for = in.sketch.problem.items[at(mark.reservoir)].id;
  for (const layout::End& end : net.ends) {
    const layout::Item& item = in.sketch.problem.items[at(end.item)];
    if (item.trough) continue;
    symbol.tier = static_cast<int>(in.layout.items[at(end.item)].tier);
    symbol.branch = in.layout.items[at(end.item)].branch;
    symbol.family = "tankmark-" + std::to_string(symbol.tier) + "-" + std::to_string(symbol.branch);
  }
  const double m = in.module;
  const sheet::Point p = in.mm(mark.at);
  const auto look = in.ends.find(&mark);
  const PortUse use = look == in.ends.end() ? PortUse::main : use_of(look->second);
  const auto pattern = use == PortUse::pilot ? sheet::Pattern::pilot_in_symbol : use == PortUse::drain ? sheet::Pattern::drain_in_symbol : sheet::Pattern::solid;
  symbol.box = {p.x - m, p.y, 2 * m, 3 * m};
  symbol.centre = {p.x, p.y + 2.5 * m};
  symbol.ports.push_back({"T", p, Side::above, PortUse::main, {}, {}});
  symbol.inks = {sheet::line({p, {p.x, p.y + 2.75 * m}}, in.line, pattern),
                 sheet::line({{p.x - m, p.y + 2 * m}, {p.x - m, p.y + 3 * m}, {p.x + m, p.y + 3 * m}, {p.x + m, p.y + 2 * m}}, in.line)};
  return symbol;
}

// ---------------------------------------------------------------- nets

void add_ends(const Placing& in, int net, layout::End end, std::vector<DrawnNet::End>& ends) {
  const layout::Item& item = in.sketch.problem.items[at(end.item)];
  for (const layout::TankMark* mark : in_reservoir(in.marks, net, end)) ends.push_back({in.mark_ids.at(mark), "T"});
  for (const layout::TankMark* entry : in_reservoir(in.entries, net, end)) ends.push_back({item.id, entry_name(in, *entry)});
  if (item.trough) return;
  if (in_trough(in, end.item)) return ends.push_back({in.sketch.problem.items[at(item.host)].id, item.id});
  ends.push_back({item.id, pose_of(in, end.item).pins[at(end.pin)].name});
}

// A line to a strainer ends at the rim for the geometry: what is below belongs to the trough.
void cut_at_rim(const Placing& in, const layout::Net& net, std::vector<sheet::Point>& points) {
  for (const layout::End& end : net.ends) {
    if (!in_trough(in, end.item)) continue;
    const double rim = in.layout.items[at(in.sketch.problem.items[at(end.item)].host)].at.y * in.half;
    if (!points.empty() && points.front().y > rim) points.front().y = rim;
    if (!points.empty() && points.back().y > rim) points.back().y = rim;
  }
}

// By path of a net: the pipe whose text names just the ends that the path parts from the others; empty where there is none.
std::vector<std::string> lines_of(const Placing& in, std::size_t index) {
  const layout::Net& net = in.sketch.problem.nets[index];
  const std::vector<layout::Path>& paths = in.layout.nets[index].paths;
  std::vector<std::string> lines(paths.size());
  if (net.texts.empty() || std::any_of(paths.begin(), paths.end(), [](const layout::Path& path) { return path.points.empty(); })) return lines;
  layout::KeysAt keys;
  std::map<std::pair<int, int>, layout::Key> of_end;   // an end that falls at several places counts at each
  for (const layout::End& end : net.ends)
    for (const layout::Point place : pin_places(in, static_cast<int>(index), end)) keys[place] += layout::key_of(end), of_end[{end.item, end.pin}] += layout::key_of(end);
  const layout::Sides sides = layout::sides_of(paths, keys);
  for (const layout::LineText& text : net.texts) {
    layout::Key near = 0;
    for (const layout::End& end : text.near) near += of_end[{end.item, end.pin}];
    for (std::size_t p = 0; p < paths.size(); ++p)
      if (lines[p].empty() && layout::parts(sides, p, near)) lines[p] = text.id.substr(text.id.find(':') + 1);
  }
  return lines;
}

DrawnNet drawn_net(const Placing& in, std::size_t index) {
  const layout::Net& net = in.sketch.problem.nets[index];
  const layout::Routed& routed = in.layout.nets[index];
  DrawnNet drawn;
  drawn.id = drawn.logical = in.sketch.nets[index].id;
  drawn.kind = net.kind;
  for (const layout::End& end : net.ends) add_ends(in, static_cast<int>(index), end, drawn.ends);
  const std::vector<std::string> lines = lines_of(in, index);
  for (std::size_t p = 0; p < routed.paths.size(); ++p) {
    DrawnPath path;
    for (const layout::Point& point : routed.paths[p].points) path.points.push_back(in.mm(point));
    cut_at_rim(in, net, path.points);
    path.look = net.kind == NetKind::mechanical ? NetKind::mechanical : routed.paths[p].look;
    path.line = lines[p];
    drawn.paths.push_back(std::move(path));
  }
  for (const layout::Point& dot : routed.dots) drawn.junctions.push_back(in.mm(dot));
  return drawn;
}

DrawnGroup drawn_group(const Placing& in, const layout::Enclosure& enclosure) {
  const layout::Group& group = in.sketch.problem.groups[at(enclosure.group)];
  DrawnGroup drawn{group.id, group.title, in.rect(enclosure.box), {}, {}};
  for (const layout::Item& item : in.sketch.problem.items)
    for (int g = item.group; g >= 0; g = in.sketch.problem.groups[at(g)].parent)
      if (g == enclosure.group) drawn.members.push_back(item.id);
  for (const layout::Point& crossing : enclosure.crossings) drawn.crossings.push_back(in.mm(crossing));
  return drawn;
}

}  // namespace

DrawnSheet placed(const Sketch& sketch, const layout::Layout& layout, Library& library, double module_mm, double line_mm, double capital_mm) {
  Placing in{sketch, layout, library, module_mm / 2, module_mm, line_mm, {}, {}, by_end(layout.marks), by_end(layout.entries), {}};
  name_marks(in);
  find_looks(in);
  DrawnSheet page;
  for (std::size_t i = 0; i < sketch.problem.items.size(); ++i) {
    const layout::Item& item = sketch.problem.items[i];
    const bool trough = item.trough;
    if (item.elsewhere) continue;                               // all its lines end in marks
    if (item.in_trough) continue;                               // drawn with its trough
    page.symbols.push_back(trough ? drawn_trough(in, static_cast<int>(i)) : drawn_item(in, static_cast<int>(i)));
  }
  for (const layout::TankMark& mark : layout.marks) page.symbols.push_back(drawn_mark(in, mark));
  for (std::size_t n = 0; n < sketch.problem.nets.size(); ++n)
    if (!layout.nets[n].paths.empty()) page.nets.push_back(drawn_net(in, n));
  for (const layout::Enclosure& enclosure : layout.enclosures) page.groups.push_back(drawn_group(in, enclosure));
  page.labels = labels_of(sketch, layout, module_mm, capital_mm);
  return page;
}

}  // namespace ferrule
