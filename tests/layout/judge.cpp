#include "layout/judge.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace judge {

using namespace ferrule::layout;

namespace {

struct Line { int net; int x0, y0, x1, y1; bool level() const { return y0 == y1; } };

std::vector<Line> lines_of(const Layout& layout) {
  std::vector<Line> lines;
  for (std::size_t n = 0; n < layout.nets.size(); ++n)
    for (const Path& path : layout.nets[n].paths)
      for (std::size_t i = 0; i + 1 < path.points.size(); ++i) {
        const Point a = path.points[i], b = path.points[i + 1];
        lines.push_back({int(n), std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)});
      }
  return lines;
}

Box place(const Problem& problem, const Layout& layout, std::size_t i) {
  const Placed& p = layout.items[i];
  if (problem.items[i].trough) return {p.at.x - p.trough_width / 2, p.at.y, p.at.x + p.trough_width / 2, p.at.y + p.trough_height};
  const Box b = problem.items[i].poses.at(p.pose).box;
  return {p.at.x + b.left, p.at.y + b.top, p.at.x + b.right, p.at.y + b.bottom};
}

bool overlap(const Box& a, const Box& b, int gap = 0) {
  return a.left < b.right + gap && b.left < a.right + gap && a.top < b.bottom + gap && b.top < a.bottom + gap;
}

struct Judge {
  const Problem& problem;
  const Layout& layout;
  std::vector<std::string> found;
  std::vector<Line> lines;
  std::vector<Box> boxes;

  void say(std::string text) { if (found.size() < 40) found.push_back(std::move(text)); }
  const std::string& id(std::size_t i) const { return problem.items[i].id; }

  bool hosted(std::size_t i, std::size_t j) const {
    return (problem.items[i].host == int(j) && problem.items[i].in_trough) || (problem.items[j].host == int(i) && problem.items[j].in_trough);
  }

  void symbols() {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j)
        if (!hosted(i, j) && overlap(boxes[i], boxes[j])) say(id(i) + " stands on " + id(j));
      for (const TankMark& mark : layout.marks)
        if (overlap(boxes[i], {mark.at.x - 2, mark.at.y, mark.at.x + 2, mark.at.y + 6})) say("a mark stands on " + id(i));
      for (const Line& l : lines) {
        const Box& b = boxes[i];
        if (l.level() ? l.y0 > b.top && l.y0 < b.bottom && l.x0 < b.right && l.x1 > b.left
                      : l.x0 > b.left && l.x0 < b.right && l.y0 < b.bottom && l.y1 > b.top)
          say("a line of " + problem.nets[l.net].id + " runs through " + id(i));
        else if (!problem.items[i].trough && (l.level() ? (l.y0 == b.top || l.y0 == b.bottom) && l.x0 < b.right && l.x1 > b.left
                           : (l.x0 == b.left || l.x0 == b.right) && l.y0 < b.bottom && l.y1 > b.top))
          say("a line of " + problem.nets[l.net].id + " runs along " + id(i));
      }
    }
  }

  void nets_apart() {
    for (std::size_t i = 0; i < lines.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const Line &a = lines[i], &b = lines[j];
        if (a.x0 > b.x1 || b.x0 > a.x1 || a.y0 > b.y1 || b.y0 > a.y1) continue;
        const bool crossing = a.level() != b.level() && (a.level() ? b.x0 > a.x0 && b.x0 < a.x1 && a.y0 > b.y0 && a.y0 < b.y1
                                                                   : a.x0 > b.x0 && a.x0 < b.x1 && b.y0 > a.y0 && b.y0 < a.y1);
        if (a.net != b.net && !crossing) say(problem.nets[a.net].id + " touches " + problem.nets[b.net].id);
        if (a.net == b.net && crossing) say(problem.nets[a.net].id + " crosses itself");
      }
  }

  Point port(const End& end) const {
    const Pose& pose = problem.items[end.item].poses[layout.items[end.item].pose];
    return {layout.items[end.item].at.x + pose.pins[end.pin].at.x, layout.items[end.item].at.y + pose.pins[end.pin].at.y};
  }

  void tree(std::size_t n) {
    const Net& net = problem.nets[n];
    std::map<std::pair<int, int>, int> degree;
    std::map<std::pair<int, int>, std::pair<int, int>> up;
    const auto root = [&](std::pair<int, int> p) { while (up.count(p) && up[p] != p) p = up[p]; return p; };
    int pieces = 0;
    for (const Path& path : layout.nets[n].paths) {
      for (std::size_t i = 0; i + 1 < path.points.size(); ++i)
        if (path.points[i].x != path.points[i + 1].x && path.points[i].y != path.points[i + 1].y) say("oblique piece in " + net.id);
      const std::pair a{path.points.front().x, path.points.front().y}, b{path.points.back().x, path.points.back().y};
      ++degree[a], ++degree[b];
      for (const auto& p : {a, b}) up.try_emplace(p, p);
      if (root(a) == root(b)) say("loop in " + net.id);
      up[root(a)] = root(b), ++pieces;
    }
    if (pieces == 0) return say("nothing drawn of " + net.id);
    std::set<std::pair<int, int>> ports, roots;
    for (const End& end : net.ends) {
      if (problem.items[end.item].trough || problem.items[end.item].on_cover) continue;
      const Point p = port(end);
      ports.insert({p.x, p.y});
      if (degree[{p.x, p.y}] != 1) say("open end " + id(end.item) + " of " + net.id);
    }
    for (const auto* list : {&layout.marks, &layout.entries})
      for (const TankMark& mark : *list)
        if (mark.net == int(n)) {
          ports.insert({mark.at.x, mark.at.y});
          if (degree[{mark.at.x, mark.at.y}] != 1) say("open tank end of " + net.id);
        }
    std::set<std::pair<int, int>> dots;
    for (const Point& dot : layout.nets[n].dots) dots.insert({dot.x, dot.y});
    for (const auto& [p, d] : degree) {
      roots.insert(root(p));
      if (d == 1 && !ports.count(p)) say("loose end in " + net.id);
      if (d > 3) say("four-way joint in " + net.id);
      if ((d >= 3) != (dots.count(p) > 0)) say("wrong dot in " + net.id);
    }
    if (roots.size() != 1) say(net.id + " is drawn in " + std::to_string(roots.size()) + " parts");
  }

  bool member(int group, std::size_t item) const {
    for (int g = problem.items[item].group; g >= 0; g = problem.groups[g].parent)
      if (g == group) return true;
    return false;
  }

  void enclosures() {
    for (const Enclosure& e : layout.enclosures) {
      const std::string& name = problem.groups[e.group].id;
      for (std::size_t i = 0; i < boxes.size(); ++i) {
        const bool inside = boxes[i].left > e.box.left && boxes[i].right < e.box.right && boxes[i].top > e.box.top && boxes[i].bottom < e.box.bottom;
        if (member(e.group, i) ? !inside : overlap(boxes[i], e.box)) say(id(i) + " is on the wrong side of " + name);
      }
      const Box &b = e.box;
      for (const Box& side : {Box{b.left, b.top, b.right, b.top}, Box{b.left, b.bottom, b.right, b.bottom}, Box{b.left, b.top, b.left, b.bottom}, Box{b.right, b.top, b.right, b.bottom}}) {
        for (const PlacedText& text : layout.texts)
          if (overlap(text.box, side, 1)) say(text.id + " on the border of " + name);
        for (const Line& l : lines)
          if (l.level() == (side.top == side.bottom) && overlap({l.x0, l.y0, l.x1, l.y1}, side, 1)) say("a line along the border of " + name);
      }
    }
  }

  void texts() {
    std::set<std::string> seen;
    for (std::size_t i = 0; i < layout.texts.size(); ++i) {
      const PlacedText& text = layout.texts[i];
      if (!seen.insert(text.id).second) say("twice: " + text.id);
      for (std::size_t j = 0; j < i; ++j)
        if (overlap(text.box, layout.texts[j].box, 1)) say(text.id + " on " + layout.texts[j].id);
      for (const Line& l : lines)
        if (overlap(text.box, {l.x0, l.y0, l.x1, l.y1}, 1)) say(text.id + " on a line of " + problem.nets[l.net].id);
      for (std::size_t k = 0; k < boxes.size(); ++k) {
        const bool own = text.id.rfind(id(k) + ":", 0) == 0;
        const bool in_trough = problem.items[k].trough;
        if (!own && !in_trough && overlap(text.box, boxes[k], 1)) say(text.id + " on " + id(k));
      }
      for (const TankMark& mark : layout.marks)
        if (overlap(text.box, {mark.at.x - 2, mark.at.y, mark.at.x + 2, mark.at.y + 6}, 1)) say(text.id + " on a mark");
      if (text.box.left < layout.extent.left || text.box.right > layout.extent.right) say(text.id + " outside");
    }
    for (const Item& item : problem.items)
      for (const TextBlock& block : item.texts)
        if (!seen.count(block.id)) say("missing text " + block.id);
    for (const Net& net : problem.nets)
      for (const LineText& text : net.texts)
        if (!seen.count(text.id)) say("missing text " + text.id);
  }
};

}  // namespace

std::vector<std::string> faults(const Problem& problem, const Layout& layout) {
  Judge judge{problem, layout, {}, lines_of(layout), {}};
  for (std::size_t i = 0; i < problem.items.size(); ++i) judge.boxes.push_back(place(problem, layout, i));
  judge.symbols();
  judge.nets_apart();
  for (std::size_t n = 0; n < problem.nets.size(); ++n)
    if (problem.nets[n].ends.size() > 1) judge.tree(n);
  judge.enclosures();
  judge.texts();
  return judge.found;
}

Figures figures(const Problem& problem, const Layout& layout) {
  Figures f;
  const std::vector<Line> lines = lines_of(layout);
  for (std::size_t i = 0; i < lines.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const Line &a = lines[i].level() ? lines[i] : lines[j], &b = lines[i].level() ? lines[j] : lines[i];
      if (lines[i].level() != lines[j].level() && b.x0 > a.x0 && b.x0 < a.x1 && a.y0 > b.y0 && a.y0 < b.y1) ++f.crossings;
    }
  double symbols = 0;
  for (std::size_t i = 0; i < layout.items.size(); ++i) {
    const Box b = place(problem, layout, i);
    symbols += double(b.right - b.left) * (b.bottom - b.top);
  }
  for (const Routed& net : layout.nets) {
    f.nets += !net.paths.empty();
    f.tees += int(net.dots.size());
    for (const Path& path : net.paths) f.bends += int(path.points.size()) - 2;
  }
  for (const PlacedText& text : layout.texts) f.leaders += !text.leader.empty();
  const Box& e = layout.extent;
  f.area_ratio = double(e.right - e.left) * (e.bottom - e.top) / symbols;
  return f;
}

}  // namespace judge
