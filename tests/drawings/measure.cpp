#include "drawings/measure.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

namespace measure {
namespace {

using Json = nlohmann::json;

// Integer hundredths of a millimetre; every coordinate of a drawing is a whole number of them within 0.02 mm.
long units(double mm) { return std::lround(mm * 50) * 2; }
constexpr long deep = 20, text_gap = 30;

struct Point {
  long x, y;
  auto operator<=>(const Point&) const = default;
};

struct Box {
  long left, top, right, bottom;
};
Box box_of(const Json& j) {
  return {units(j["x"]), units(j["y"]), units(double(j["x"]) + double(j["w"])), units(double(j["y"]) + double(j["h"]))};
}
bool nearer(const Box& a, const Box& b, long gap) {
  return a.left < b.right + gap && b.left < a.right + gap && a.top < b.bottom + gap && b.top < a.bottom + gap;
}

// A maximal straight piece of one net.
struct Piece {
  bool level;
  long at;         // y of a level one, x of an upright one
  long from, to;
  Box box() const { return level ? Box{from, at, to, at} : Box{at, from, at, to}; }
  bool touches(Point p) const { return level ? p.y == at && from <= p.x && p.x <= to : p.x == at && from <= p.y && p.y <= to; }
  bool ends_at(Point p) const { return touches(p) && ((level ? p.x : p.y) == from || (level ? p.x : p.y) == to); }
};

struct Net {
  std::string id;
  std::vector<Piece> pieces;
  std::set<Point> dots, ports;
  std::map<Point, char> port_side;
};

struct Symbol {
  std::string id, kind, family;
  int tier, branch;
  Box box;
  long cx, cy;
  std::set<std::string> nets;
};

struct Sheet {
  std::vector<Symbol> symbols;
  std::vector<Net> nets;
};

void fault(Figures& f, int& count, std::string what) {
  ++count;
  f.faults.push_back(std::move(what));
}

std::string place(Point p) { return "(" + std::to_string(p.x / 100.0) + ", " + std::to_string(p.y / 100.0) + ")"; }

// ---------------------------------------------------------------- reading

std::vector<Piece> merged(std::vector<Piece> pieces) {
  std::sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) {
    return std::tie(a.level, a.at, a.from, a.to) < std::tie(b.level, b.at, b.from, b.to);
  });
  std::vector<Piece> result;
  for (const Piece& piece : pieces) {
    if (!result.empty() && result.back().level == piece.level && result.back().at == piece.at && piece.from <= result.back().to)
      result.back().to = std::max(result.back().to, piece.to);
    else
      result.push_back(piece);
  }
  return result;
}

void read_paths(const Json& paths, Net& net, Figures& f) {
  for (const Json& path : paths)
    for (std::size_t i = 1; i < path.size(); ++i) {
      const Point a{units(path[i - 1][0]), units(path[i - 1][1])}, b{units(path[i][0]), units(path[i][1])};
      if (a == b) continue;
      if (a.y == b.y)
        net.pieces.push_back({true, a.y, std::min(a.x, b.x), std::max(a.x, b.x)});
      else if (a.x == b.x)
        net.pieces.push_back({false, a.x, std::min(a.y, b.y), std::max(a.y, b.y)});
      else
        fault(f, f.oblique, "net " + net.id + " has an oblique piece at " + place(a));
    }
  net.pieces = merged(std::move(net.pieces));
}

Net read_net(const Json& j, const std::map<std::pair<std::string, std::string>, std::pair<Point, char>>& ports, Figures& f) {
  Net net;
  net.id = j["id"];
  read_paths(j["paths"], net, f);
  for (const Json& dot : j["junctions"]) net.dots.insert({units(dot[0]), units(dot[1])});
  for (const Json& end : j["ends"]) {
    const auto found = ports.find({end["symbol"], end["port"]});
    if (found == ports.end()) {
      fault(f, f.open_nets, "net " + net.id + " names a port that is not drawn: " + end.dump());
      continue;
    }
    net.ports.insert(found->second.first);
    net.port_side[found->second.first] = found->second.second;
  }
  return net;
}

Sheet read_sheet(const Json& j, Figures& f) {
  Sheet sheet;
  std::map<std::pair<std::string, std::string>, std::pair<Point, char>> ports;
  for (const Json& s : j["symbols"]) {
    const Box box = box_of(s);
    Symbol symbol{s["id"], s["kind"], s.value("family", ""), s["tier"], s["branch"], box, (box.left + box.right) / 2, (box.top + box.bottom) / 2, {}};
    if (s.contains("centre")) symbol.cx = units(s["centre"][0]), symbol.cy = units(s["centre"][1]);
    if (s.contains("cx")) symbol.cx = units(s["cx"]), symbol.cy = units(s["cy"]);
    for (const Json& port : s["ports"])
      ports[{symbol.id, port["id"]}] = {{units(port["x"]), units(port["y"])}, std::string(port["side"])[0]};
    sheet.symbols.push_back(std::move(symbol));
  }
  std::map<std::string, std::set<std::string>> nets_of;
  for (const Json& net : j["nets"]) {
    sheet.nets.push_back(read_net(net, ports, f));
    for (const Json& end : net["ends"]) nets_of[end["symbol"]].insert(sheet.nets.back().id);
  }
  for (Symbol& symbol : sheet.symbols) symbol.nets = nets_of[symbol.id];
  return sheet;
}

// ---------------------------------------------------------------- one net

bool has_direction(const Net& net, Point p, bool level, bool forward) {
  for (const Piece& piece : net.pieces) {
    if (piece.level != level || !piece.touches(p)) continue;
    const long along = level ? p.x : p.y;
    if (forward ? along < piece.to : along > piece.from) return true;
  }
  return false;
}

struct Directions {
  bool east, west, south, north;
  int count() const { return east + west + south + north; }
  bool bends() const { return count() == 2 && (east || west) && (south || north); }
};
Directions directions(const Net& net, Point p) {
  return {has_direction(net, p, true, true), has_direction(net, p, true, false), has_direction(net, p, false, true), has_direction(net, p, false, false)};
}

std::set<Point> points_of_interest(const Net& net) {
  std::set<Point> points = net.ports;
  for (const Piece& a : net.pieces) {
    points.insert(a.level ? Point{a.from, a.at} : Point{a.at, a.from});
    points.insert(a.level ? Point{a.to, a.at} : Point{a.at, a.to});
    for (const Piece& b : net.pieces)
      if (a.level && !b.level && a.touches({b.at, a.at}) && b.touches({b.at, a.at})) points.insert({b.at, a.at});
  }
  return points;
}

void measure_port(const Net& net, Point p, const Directions& d, Figures& f) {
  const char side = net.port_side.at(p);
  const bool straight = (side == 'N' && d.north) || (side == 'S' && d.south) || (side == 'E' && d.east) || (side == 'W' && d.west);
  if (d.count() == 1 && !straight) fault(f, f.wrong_side, "net " + net.id + " leaves the port at " + place(p) + " across its side");
  if (d.count() == 0) fault(f, f.open_nets, "net " + net.id + " does not reach its port at " + place(p));
}

void measure_points(const Net& net, const std::set<Point>& points, Figures& f, int& bends) {
  for (const Point p : points) {
    const Directions d = directions(net, p);
    const bool port = net.ports.contains(p);
    const int arms = d.count() + (port ? 1 : 0);
    if (port) measure_port(net, p, d, f);
    if (!port && d.count() == 1) fault(f, f.loose_ends, "net " + net.id + " ends loose at " + place(p));
    if (!port && d.bends()) ++bends;
    if (arms == 3) ++f.tees;
    if (arms > 3) fault(f, f.four_way, "net " + net.id + " has a four-way joint at " + place(p));
    if (arms >= 3 && !net.dots.contains(p)) fault(f, f.missing_dots, "net " + net.id + " lacks a dot at " + place(p));
    if (arms < 3 && net.dots.contains(p)) fault(f, f.wrong_dots, "net " + net.id + " has a dot where nothing joins at " + place(p));
  }
  for (const Point dot : net.dots)
    if (!points.contains(dot)) fault(f, f.wrong_dots, "net " + net.id + " has a dot beside its lines at " + place(dot));
}

// Parts and loops of the graph whose vertices are the points of interest.
void measure_graph(const Net& net, const std::set<Point>& points, Figures& f) {
  std::map<Point, Point> parent;
  for (const Point p : points) parent[p] = p;
  auto root = [&](Point p) {
    while (parent[p] != p) p = parent[p] = parent[parent[p]];
    return p;
  };
  int loops = 0;
  for (const Piece& piece : net.pieces) {
    std::vector<Point> on;
    for (const Point p : points)
      if (piece.touches(p)) on.push_back(p);  // sorted along the piece
    for (std::size_t i = 1; i < on.size(); ++i) {
      const Point a = root(on[i - 1]), b = root(on[i]);
      if (a == b) ++loops;
      parent[a] = b;
    }
  }
  std::set<Point> roots;
  for (const Point p : points) roots.insert(root(p));
  if (roots.size() > 1) fault(f, f.open_nets, "net " + net.id + " is drawn in " + std::to_string(roots.size()) + " parts");
  for (int i = 0; i < loops; ++i) fault(f, f.loops, "net " + net.id + " has a loop");
}

void measure_net(const Net& net, Figures& f) {
  const auto points = points_of_interest(net);
  int bends = 0;
  measure_points(net, points, f, bends);
  measure_graph(net, points, f);
  f.bends += bends;
  if (net.ports.size() != 2) return;
  ++f.two_ended;
  f.two_ended_straight += bends == 0;
  f.two_ended_bends += bends;
  f.worst_two_ended = std::max(f.worst_two_ended, bends);
}

// ---------------------------------------------------------------- between nets, symbols, texts

void measure_pair(const Net& a, const Net& b, const Piece& p, const Piece& q, std::set<Point>& touched, Figures& f) {
  if (p.level == q.level) {
    if (p.at != q.at || p.to < q.from || q.to < p.from) return;
    if (std::min(p.to, q.to) > std::max(p.from, q.from))
      fault(f, f.shared_pieces, "nets " + a.id + " and " + b.id + " share a piece at " + place(p.level ? Point{std::max(p.from, q.from), p.at} : Point{p.at, std::max(p.from, q.from)}));
    else
      touched.insert(p.level ? Point{std::max(p.from, q.from), p.at} : Point{p.at, std::max(p.from, q.from)});
    return;
  }
  const Point cut = p.level ? Point{q.at, p.at} : Point{p.at, q.at};
  if (!p.touches(cut) || !q.touches(cut)) return;
  if (p.ends_at(cut) || q.ends_at(cut))
    touched.insert(cut);
  else
    ++f.crossings;
}

void measure_nets(const std::vector<Net>& nets, Figures& f) {
  for (std::size_t i = 0; i < nets.size(); ++i)
    for (std::size_t j = i + 1; j < nets.size(); ++j) {
      std::set<Point> touched;
      for (const Piece& p : nets[i].pieces)
        for (const Piece& q : nets[j].pieces) measure_pair(nets[i], nets[j], p, q, touched, f);
      for (const Point p : touched) fault(f, f.false_contacts, "nets " + nets[i].id + " and " + nets[j].id + " touch at " + place(p));
    }
}

bool enters(const Piece& piece, const Box& box) {
  const Box inner{box.left + deep, box.top + deep, box.right - deep, box.bottom - deep}, line = piece.box();
  return line.left < inner.right && line.right > inner.left && line.top < inner.bottom && line.bottom > inner.top;
}

bool runs_along(const Piece& piece, const Box& box) {
  const bool on_edge = piece.level ? piece.at == box.top || piece.at == box.bottom : piece.at == box.left || piece.at == box.right;
  const long low = piece.level ? box.left : box.top, high = piece.level ? box.right : box.bottom;
  return on_edge && std::min(piece.to, high) - std::max(piece.from, low) > deep;
}

void measure_symbols(const Sheet& sheet, Figures& f) {
  const auto& symbols = sheet.symbols;
  for (std::size_t i = 0; i < symbols.size(); ++i)
    for (std::size_t j = i + 1; j < symbols.size(); ++j)
      if (nearer(symbols[i].box, symbols[j].box, -2)) fault(f, f.symbol_on_symbol, symbols[i].id + " lies on " + symbols[j].id);
  for (const Symbol& symbol : symbols)
    for (const Net& net : sheet.nets)
      for (const Piece& piece : net.pieces) {
        if (enters(piece, symbol.box)) fault(f, f.line_through_symbol, "net " + net.id + " runs through " + symbol.id);
        if (runs_along(piece, symbol.box)) fault(f, f.line_along_outline, "net " + net.id + " runs along the outline of " + symbol.id);
      }
}

void measure_text(const Json& label, const Box& box, const Sheet& sheet, Figures& f) {
  const std::string owner = label["owner"], id = label["id"];
  for (const Symbol& symbol : sheet.symbols) {
    if (bool(label["inside"]) && symbol.id == owner) continue;
    if (nearer(box, symbol.box, text_gap - 1)) fault(f, f.text_on_symbol, "text " + id + " touches " + symbol.id);
  }
  for (const Net& net : sheet.nets) {
    if (bool(label["inline"]) && net.id == owner) continue;
    for (const Piece& piece : net.pieces)
      if (nearer(box, piece.box(), text_gap - 1)) fault(f, f.text_on_line, "text " + id + " touches net " + net.id);
  }
}

void measure_texts(const Json& labels, const Sheet& sheet, Figures& f) {
  std::vector<Box> boxes;
  for (const Json& label : labels) boxes.push_back(box_of(label));
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    measure_text(labels[i], boxes[i], sheet, f);
    for (std::size_t j = i + 1; j < boxes.size(); ++j)
      if (nearer(boxes[i], boxes[j], text_gap - 1))
        fault(f, f.text_on_text, "texts " + std::string(labels[i]["id"]) + " and " + std::string(labels[j]["id"]) + " touch");
  }
  f.texts += static_cast<int>(boxes.size());
}

void measure_outside(const Json& j, const Sheet& sheet, Figures& f) {
  const Json& a = j["area"];
  const Box area{units(a[0]), units(a[1]), units(double(a[0]) + double(a[2])), units(double(a[1]) + double(a[3]))};
  auto check = [&](const Box& box, const std::string& what) {
    if (box.left < area.left || box.top < area.top || box.right > area.right || box.bottom > area.bottom)
      fault(f, f.outside, what + " stands outside the drawing space");
  };
  for (const Symbol& symbol : sheet.symbols) check(symbol.box, symbol.id);
  for (const Net& net : sheet.nets)
    for (const Piece& piece : net.pieces) check(piece.box(), "net " + net.id);
  for (const Json& label : j["labels"]) check(box_of(label), "text " + std::string(label["id"]));
}

// Cross reliefs and their like lie between the same two lines, one over the other: how many of its kind stand over it.
int place_in_pair(const Sheet& sheet, const Symbol& symbol) {
  if (symbol.nets.size() < 2) return 0;
  return static_cast<int>(std::count_if(sheet.symbols.begin(), sheet.symbols.end(), [&](const Symbol& other) {
    return other.family == symbol.family && other.branch == symbol.branch && other.nets == symbol.nets && other.cy < symbol.cy;
  }));
}

void measure_rows(const Sheet& sheet, Figures& f) {
  std::map<std::tuple<std::string, int, int>, std::map<long, int>> rows;
  for (const Symbol& symbol : sheet.symbols)
    if (!symbol.family.empty() && symbol.kind != "tankmark") ++rows[{symbol.family, symbol.tier, place_in_pair(sheet, symbol)}][symbol.cy];
  for (const auto& [family, counts] : rows) {
    int all = 0, most = 0;
    for (const auto& [y, count] : counts) all += count, most = std::max(most, count);
    if (all < 2) continue;
    f.family_members += all;
    f.family_in_row += most;
  }
}

// Within a branch, and supply against valves and actuators: what comes later in the order of tiers stands higher.
void measure_gravity(const Sheet& sheet, Figures& f) {
  for (const Symbol& low : sheet.symbols)
    for (const Symbol& high : sheet.symbols) {
      if (low.tier >= high.tier || low.kind == "tankmark" || high.kind == "tankmark") continue;
      if (low.branch != high.branch && !(low.tier == 0 && low.branch == 0)) continue;
      ++f.tier_pairs;
      f.tier_pairs_in_order += low.cy > high.cy;
    }
}

struct Span { long left = 1L << 40, right = -(1L << 40), sum = 0, count = 0; };

void measure_branches(const Sheet& sheet, Figures& f) {
  std::map<int, Span> spans;
  long pumps = -(1L << 40);
  for (const Symbol& symbol : sheet.symbols) {
    if (symbol.family == "pump") pumps = std::max(pumps, symbol.cx);
    if (symbol.branch == 0 || symbol.kind == "tankmark") continue;
    Span& span = spans[symbol.branch];
    span.left = std::min(span.left, symbol.box.left), span.right = std::max(span.right, symbol.box.right);
    span.sum += symbol.cx, ++span.count;
  }
  for (auto a = spans.begin(); a != spans.end(); ++a)
    for (auto b = std::next(a); b != spans.end(); ++b) {
      ++f.branch_pairs;
      f.branch_pairs_in_order += a->second.sum * b->second.count < b->second.sum * a->second.count;
      f.branch_pairs_apart += a->second.right < b->second.left || b->second.right < a->second.left;
    }
  if (spans.size() < 4 || pumps < 0) return;
  for (const Symbol& symbol : sheet.symbols)
    if (symbol.branch > 0 && symbol.kind != "tankmark") ++f.branch_symbols, f.branch_symbols_right += symbol.cx > pumps;
}

double area_of(const Box& box) { return double(box.right - box.left) * double(box.bottom - box.top) / 1e4; }

void measure_area(const Json& labels, const Sheet& sheet, Figures& f) {
  Box all{1L << 40, 1L << 40, -(1L << 40), -(1L << 40)};
  const auto include = [&](const Box& b) {
    all = {std::min(all.left, b.left), std::min(all.top, b.top), std::max(all.right, b.right), std::max(all.bottom, b.bottom)};
  };
  for (const Symbol& symbol : sheet.symbols) include(symbol.box), f.symbol_area += area_of(symbol.box);
  for (const Net& net : sheet.nets)
    for (const Piece& piece : net.pieces) include(piece.box());
  for (const Json& label : labels) include(box_of(label));
  if (!sheet.symbols.empty()) f.area += area_of(all);
}

}  // namespace

Figures of(std::string_view geometry_json) {
  Figures f;
  const Json file = Json::parse(geometry_json);
  for (const Json& j : file["sheets"]) {
    const Sheet sheet = read_sheet(j, f);
    f.symbols += static_cast<int>(sheet.symbols.size());
    f.nets += static_cast<int>(sheet.nets.size());
    for (const Net& net : sheet.nets) measure_net(net, f);
    measure_nets(sheet.nets, f);
    measure_symbols(sheet, f);
    measure_texts(j["labels"], sheet, f);
    measure_outside(j, sheet, f);
    measure_rows(sheet, f);
    measure_gravity(sheet, f);
    measure_branches(sheet, f);
    measure_area(j["labels"], sheet, f);
  }
  return f;
}

}  // namespace measure
