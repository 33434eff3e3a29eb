#include "render/set/piece.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "render/set/mark.hpp"

namespace ferrule::set {
namespace {

using layout::NetKind;

std::size_t at(int index) { return static_cast<std::size_t>(index); }
int count(std::size_t size) { return static_cast<int>(size); }

// By item: in an earlier unit, in the range, in a later one.
enum class Place : char { before, here, after };

std::vector<Place> places_of(const std::vector<Unit>& units, Range range, std::size_t items) {
  std::vector<Place> places(items, Place::here);
  for (std::size_t u = 0; u < units.size(); ++u)
    for (const int item : units[u].items) places[at(item)] = u < range.first ? Place::before : u < range.last ? Place::here : Place::after;
  return places;
}

// Which ends of a net a pipe has on its near side, seen from this sheet.
enum class Share { none, some, all };

struct Cutting {
  const Sketch& whole;
  std::vector<Place> places;       // by item of the whole
  double mark_width;
  Piece& piece;
  std::vector<int> own;            // by item of the whole: its index here, -1
  std::map<int, int> groups;       // of the whole to here
  std::map<int, int> nets;
  int last_branch = 0;

  Sketch& sketch() { return piece.sketch; }
  const layout::Item& item(int index) const { return whole.problem.items[at(index)]; }
  Place place(const layout::End& end) const { return places[at(end.item)]; }

  void take_text(const std::string& id) {
    if (const auto text = whole.texts.find(id); text != whole.texts.end()) sketch().texts.insert(*text);
  }

  int group(int index) {
    if (index < 0) return -1;
    if (const auto known = groups.find(index); known != groups.end()) return known->second;
    layout::Group copy = whole.problem.groups[at(index)];
    copy.parent = group(copy.parent);
    take_text("group:" + copy.id);
    sketch().problem.groups.push_back(std::move(copy));
    return groups[index] = count(sketch().problem.groups.size()) - 1;
  }

  int add(layout::Item item, SketchItem source) {
    sketch().problem.items.push_back(std::move(item));
    sketch().items.push_back(std::move(source));
    return count(sketch().items.size()) - 1;
  }

  void take_item(int index, int branch) {
    layout::Item copy = item(index);
    copy.branch = branch;
    copy.group = group(copy.group);
    for (const layout::TextBlock& text : copy.texts) take_text(text.id);
    last_branch = std::max(last_branch, branch);
    own[at(index)] = add(std::move(copy), whole.items[at(index)]);
  }

  // A reservoir that stands on another sheet: nothing of it is drawn here but its sign at the ends of lines.
  void take_reservoir(int index) {
    if (own[at(index)] >= 0) return;
    layout::Item copy = item(index);
    copy.branch = 0;
    copy.group = -1;
    copy.texts.clear();
    copy.elsewhere = true;
    SketchItem source = whole.items[at(index)];
    source.inside.clear();
    own[at(index)] = add(std::move(copy), std::move(source));
  }

  int own_or_none(int index) const { return index < 0 ? -1 : own[at(index)]; }

  void mend_neighbours() {
    for (layout::Item& copy : sketch().problem.items) copy.host = own_or_none(copy.host), copy.beside = own_or_none(copy.beside);
    for (SketchItem& source : sketch().items)
      for (int& inner : source.inside) inner = own_or_none(inner);
  }

  // ---------------------------------------------------------------- nets

  layout::End end_here(const layout::End& end) const { return {own[at(end.item)], end.pin}; }

  std::vector<layout::End> ends_here(const std::vector<layout::End>& ends) const {
    std::vector<layout::End> here;
    for (const layout::End& end : ends)
      if (own[at(end.item)] >= 0) here.push_back(end_here(end));
    return here;
  }

  bool joins(const layout::Net& net, Place wanted) const {
    return std::any_of(net.ends.begin(), net.ends.end(), [&](const layout::End& end) { return place(end) == wanted; });
  }

  // Oil of returns and drains runs back to the supply, all else away from it.
  bool runs_back(const layout::Net& net) const { return net.kind == NetKind::return_ || net.kind == NetKind::drain; }

  layout::End mark(int index, const layout::Net& net, bool onward) {
    PieceMark mark;
    mark.symbol = onward ? net.id + ">" : ">" + net.id;
    mark.net = index;
    mark.onward = onward;
    mark.to = onward != runs_back(net);
    mark.side = onward ? Side::below : Side::above;
    SketchItem source;
    source.kind = mark_kind;
    source.figures = {mark_figure(mark.side, mark.to, mark_width)};
    layout::Item item;
    item.id = mark.symbol;
    item.family = mark_kind;
    item.tier = onward ? layout::Tier::control : layout::Tier::supply;
    item.branch = onward ? last_branch + 1 : 0;
    item.poses = symbols::poses_of(source.figures);
    item.hints = {"goes-on"};
    piece.marks.push_back(mark);
    return {add(std::move(item), std::move(source)), 0};
  }

  Share share(const layout::Net& net, const layout::LineText& text, Place where) const {
    int near = 0, all = 0;
    for (const layout::End& end : net.ends) {
      if (place(end) != where) continue;
      ++all;
      near += std::any_of(text.near.begin(), text.near.end(), [&](const layout::End& e) { return e.item == end.item && e.pin == end.pin; });
    }
    return near == 0 ? Share::none : near == all ? Share::all : Share::some;
  }

  // A pipe among what is not on this sheet has no piece of line here.
  void take_line_text(const layout::Net& net, layout::LineText text, const std::map<Place, layout::End>& marks, layout::Net& copy) {
    std::vector<layout::End> near = ends_here(text.near);
    for (const auto& [where, end] : marks) {
      const Share theirs = share(net, text, where);
      if (theirs == Share::some) return;
      if (theirs == Share::all) near.push_back(end);
    }
    if (near.empty() || near.size() >= copy.ends.size()) return;
    take_text(text.id);
    text.near = std::move(near);
    copy.texts.push_back(std::move(text));
  }

  void take_source(int index) {
    SketchNet source = whole.nets[at(index)];
    if (source.source >= 0) {
      CircuitNet copy = whole.sources.nets[at(source.source)];
      for (NetEnd& end : copy.ends) {
        if (end.connection < 0) continue;
        sketch().sources.connections.push_back(whole.sources.connections[at(end.connection)]);
        end.connection = count(sketch().sources.connections.size()) - 1;
      }
      sketch().sources.nets.push_back(std::move(copy));
      source.source = count(sketch().sources.nets.size()) - 1;
    }
    sketch().nets.push_back(std::move(source));
  }

  void take_net(int index) {
    const layout::Net& net = whole.problem.nets[at(index)];
    layout::Net copy = net;
    copy.texts.clear();
    bool reservoir = false;
    for (const layout::End& end : net.ends) {
      if (!item(end.item).trough) continue;
      reservoir = true;
      take_reservoir(end.item);
    }
    copy.ends = ends_here(net.ends);
    copy.pilot_ends = ends_here(net.pilot_ends);
    copy.drain_ends = ends_here(net.drain_ends);
    std::map<Place, layout::End> marks;
    for (const Place where : {Place::before, Place::after})
      if (!reservoir && joins(net, where)) copy.ends.push_back(marks[where] = mark(index, net, where == Place::after));
    for (const layout::LineText& text : net.texts) take_line_text(net, text, marks, copy);
    take_source(index);
    nets[index] = count(sketch().problem.nets.size());
    sketch().problem.nets.push_back(std::move(copy));
  }

  void take_hints() {
    using Kind = layout::Hint::Kind;
    for (std::size_t h = 0; h < whole.problem.hints.size(); ++h) {
      layout::Hint hint = whole.problem.hints[h];
      const bool of_net = hint.kind == Kind::rail || hint.kind == Kind::marks || hint.kind == Kind::trough;
      if (of_net && !nets.contains(hint.a)) continue;
      if (!of_net && (own_or_none(hint.a) < 0 || own_or_none(hint.b) < 0)) continue;
      hint.a = of_net ? nets[hint.a] : own[at(hint.a)];
      if (!of_net) hint.b = own[at(hint.b)];
      sketch().problem.hints.push_back(hint);
      sketch().hints.push_back(whole.hints[h]);
    }
  }
};

}  // namespace

Whole::Whole(const Sketch& sketch, double mark_width) : sketch_(sketch), mark_width_(mark_width), nets_of_(sketch.problem.items.size()) {
  for (std::size_t n = 0; n < sketch.problem.nets.size(); ++n)
    for (const layout::End& end : sketch.problem.nets[n].ends)
      if (!sketch.problem.items[at(end.item)].trough) nets_of_[at(end.item)].push_back(count(n));
}

Piece Whole::piece(const std::vector<Unit>& units, Range range) const {
  Piece piece;
  const std::size_t items = sketch_.problem.items.size();
  Cutting cutting{sketch_, places_of(units, range, items), mark_width_, piece, std::vector<int>(items, -1), {}, {}, 0};
  std::set<int> nets;
  std::vector<std::pair<int, int>> taken;   // item, branch: in the order of the text, which settles ties of layout
  for (std::size_t u = range.first; u < range.last; ++u)
    for (const int item : units[u].items) taken.emplace_back(item, units[u].branch);
  std::sort(taken.begin(), taken.end());
  for (const auto& [item, branch] : taken) {
    cutting.take_item(item, branch);
    nets.insert(nets_of_[at(item)].begin(), nets_of_[at(item)].end());
  }
  for (const int net : nets) cutting.take_net(net);
  cutting.mend_neighbours();
  cutting.take_hints();
  return piece;
}

}  // namespace ferrule::set
