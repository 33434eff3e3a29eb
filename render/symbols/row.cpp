// A directional valve from its rows: boxes side by side, what shifts them at both ends, stubs at the rest box.
#include <algorithm>

#include "render/symbols/box.hpp"
#include "render/symbols/operators.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

constexpr double stub_length = 2, bar_distance = 0.5;

class Composition {
 public:
  Composition(Library& library, const Row& row) : library_(library), row_(row), box_(box_ports(row.positions)) {
    rest_ = row.rest >= 0 ? row.rest : static_cast<int>(row.positions.size()) - 1;
    met_ = row.shown >= 0 ? row.shown : rest_;
    left_ = -met_ * box_.width;
    right_ = left_ + static_cast<double>(row.positions.size()) * box_.width;
    if (row.shown >= 0) slack_ = {met_ * box_.width, (static_cast<double>(row.positions.size()) - 1 - met_) * box_.width};
    add_boxes();
    if (row.stubs) add_stubs();
    if (row.continuous) add_bars();
    add_end(true);
    add_end(false);
    add_supplies();
    keep_room();
    figure_.name = "row";
    figure_.centre = {box_.width / 2, box_.height / 2};
    figure_.fixed = true;
  }
  Figure figure() { return std::move(figure_); }

 private:
  void add(const Strokes& strokes, const Turn& turn) {
    for (const Stroke& stroke : flat(library_, strokes, turn)) figure_.strokes.push_back(stroke);
  }
  void add_boxes();
  void add_stubs();
  void add_bars();
  void add_end(bool left);
  void add_chain(const Chain& chain, bool left, double y);
  void add_supplies();
  void keep_room();

  Library& library_;
  const Row& row_;
  BoxPorts box_;
  int rest_ = 0, met_ = 0;
  double left_ = 0, right_ = 0;
  struct { double right = 0, left = 0; } slack_;  // how far the row can still move
  std::vector<Spot> stages_[2];        // middle of the pilot stages: right, left
  Figure figure_;
};

void Composition::add_boxes() {
  for (std::size_t i = 0; i < row_.positions.size(); ++i) {
    const double x = (static_cast<double>(i) - met_) * box_.width;
    figure_.strokes.push_back(stroke(StrokeKind::rect, {x, 0, box_.width, box_.height}));
    if (static_cast<int>(i) != row_.emptied) add(box_strokes(box_, row_.positions[i].paths), {x, 0});
    constexpr double inset = 0.25;
    if (static_cast<int>(i) == row_.marked)
      figure_.strokes.push_back(stroke(StrokeKind::rect, {x + inset, inset, box_.width - 2 * inset, box_.height - 2 * inset}));
  }
}

void Composition::add_stubs() {
  for (const BoxPorts::At& port : box_.ports) {
    const bool above = port.y == 0;
    const double end = above ? -stub_length : port.y + stub_length;
    figure_.strokes.push_back(stroke(StrokeKind::line, {port.x, port.y, port.x, end}));
    figure_.ports.push_back({port.name, port.x, end, above ? Side::above : Side::below, PortUse::main});
  }
}

void Composition::add_bars() {
  for (const double y : {-bar_distance, box_.height + bar_distance})
    figure_.strokes.push_back(stroke(StrokeKind::line, {left_, y, right_, y}));
}

// One slot in the middle; two, each half of the height, where either alone may act.
void Composition::add_end(bool left) {
  const std::vector<Chain> chains = chains_of(library_, row_.positions, rest_, left);
  const auto count = static_cast<double>(chains.size());
  for (std::size_t i = 0; i < chains.size(); ++i) {
    const double y = box_.height * (2 * static_cast<double>(i) + 1) / (2 * count);
    add_chain(chains[i], left, y);
  }
}

void Composition::add_chain(const Chain& chain, bool left, double y) {
  double x = left ? left_ : right_;
  const double outward = left ? -1 : 1;
  for (const Link& link : chain.links) {
    add(link.part->strokes, {x, y, 0, !left});
    if (link.stage) stages_[left].push_back({x + outward * link.part->width / 2, y});
    x += outward * link.part->width;
  }
  x = clean(x);
  if (!chain.pilot.empty()) figure_.ports.push_back({chain.pilot, x, y, left ? Side::left : Side::right, PortUse::pilot});
  if (!chain.tag.empty()) figure_.operators.push_back({chain.tag, {x, y}, left});
}

// Pilot supply leaves the left stage downward, pilot drain the right one; without a stage on that side, the end box.
void Composition::add_supplies() {
  for (const SymbolPort& port : row_.ports) {
    const bool drain = port.use == PortUse::drain;
    const auto known = std::any_of(figure_.ports.begin(), figure_.ports.end(), [&](const SymbolPort& p) { return p.name == port.name; });
    if (known) continue;
    const std::vector<Spot>& stages = stages_[!drain].empty() ? stages_[drain] : stages_[!drain];
    const double end = box_.height + stub_length;
    Spot from{drain ? right_ - 1 : left_ + 1, box_.height};
    if (!stages.empty()) from = {stages.front().x, stages.front().y + 1};
    const double port_x = clean(from.x + (met_ - rest_) * box_.width);
    std::vector<double> way{from.x, from.y, from.x, end};
    if (port_x != from.x) way = {from.x, from.y, from.x, box_.height + 1, port_x, box_.height + 1, port_x, end};
    figure_.strokes.push_back(stroke(drain ? StrokeKind::drain : StrokeKind::pilot, std::move(way)));
    figure_.ports.push_back({port.name, port_x, end, Side::below, port.use});
  }
}

// The row may stand in any position: lines end where they do in all of them, and a pilot reaches from there to the row.
void Composition::keep_room() {
  if (row_.shown < 0) return;
  Extent room = extent_of(figure_.strokes);
  room.left -= slack_.left;
  room.right += slack_.right;
  figure_.room = room;
  for (SymbolPort& port : figure_.ports) {
    const double slack = port.side == Side::left ? -slack_.left : port.side == Side::right ? slack_.right : 0;
    if (slack == 0) continue;
    figure_.strokes.push_back(stroke(StrokeKind::pilot, {port.x, port.y, clean(port.x + slack), port.y}));
    port.x = clean(port.x + slack);
  }
}

}  // namespace

Figure row_figure(Library& library, const Row& row) {
  if (row.positions.empty()) return {};
  return Composition(library, row).figure();
}

}  // namespace ferrule::symbols
