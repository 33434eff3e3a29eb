// Step 5: what belongs to one symbol, around its origin: port letters, tag and data at the house side, the places where lines
// that leave sideways turn up or down, tank marks. Everything inside a cell is clear of everything else in it, so cells that
// stand apart cannot collide.
#include <algorithm>
#include <cstdlib>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

constexpr int far = 1 << 20;
constexpr int stub = 4;        // 2 M, the line stub of valves, cylinders and enclosures

bool meets(const Box& a, const Box& b, int gap) {
  return a.left < b.right + gap && b.left < a.right + gap && a.top < b.bottom + gap && b.top < a.bottom + gap;
}

bool named(const Node& node, const char* family) { return node.item->family == family; }

struct CellBuilder {
  Plan& plan;
  Node& node;
  std::vector<Box> solid;        // texts, marks, own vertical lines
  std::vector<Box> corridors;    // lines that leave: straight on from every joined port
  Box body;
  int spread = 0;                // least distance of its turning lines from its centre

  explicit CellBuilder(Plan& p, Node& n) : plan(p), node(n), body(n.stand().box) { open_corridors(); }

  void open_corridors() {
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (tap.way == Way::none) continue;
      const Pin& pin = pin_of(plan, tap);
      const auto [x, y] = pin.at;
      switch (pin.side) {
        case Side::above: corridors.push_back({x, -far, x, y}); break;
        case Side::below: corridors.push_back({x, y, x, far}); break;
        case Side::left: corridors.push_back({-far, y, x, y}); break;
        case Side::right: corridors.push_back({x, y, far, y}); break;
      }
    }
  }

  bool free(const Box& box, bool on_body = false) const {
    if (!on_body && meets(box, body, 1)) return false;
    if (on_body)
      for (const Box& stroke : node.stand().ink)
        if (meets(box, stroke, 1)) return false;
    for (const Box& other : solid)
      if (meets(box, other, on_body ? 1 : 2)) return false;
    for (const Box& other : corridors)
      if (meets(box, other, 1)) return false;
    return true;
  }

  void keep(const TextBlock& text, const Box& box, PlacedText::Align align) {
    PlacedText placed;
    placed.id = text.id, placed.box = box, placed.align = align;
    solid.push_back(box);
    node.cell.texts.push_back(std::move(placed));
  }

  static Box at(int left, int top, const TextBlock& text) { return {left, top, left + text.width, top + text.height}; }

  // ---------------------------------------------------------------- port letters

  // Of a pair the left letter stands left and the right one right, a single one right; beside the stub, on the symbol's own
  // ground, where the stub is free. Beyond the box when that is taken.
  void put_letter(const TextBlock& text) {
    const std::vector<Pin>& pins = node.stand().pins;
    if (text.pin < 0 || text.pin >= int(pins.size())) return put_somewhere(text);
    const Pin& pin = pins[text.pin];
    const bool vertical = pin.side == Side::above || pin.side == Side::below;
    const int out = pin.side == Side::above || pin.side == Side::left ? -1 : 1;
    for (const int beyond : {0, 4, 8, 12}) {
      for (const int turn : {0, 1}) {
        const Box box = vertical ? beside_vertical(text, pin, (turn == 1) != leftmost(pins, text.pin), out, beyond)
                                 : beside_level(text, pin, turn == 1, out, beyond);
        if (free(box, true)) return keep(text, box, PlacedText::Align::left);
      }
    }
    put_somewhere(text);
  }

  static bool leftmost(const std::vector<Pin>& pins, int own) {
    bool others = false;
    for (std::size_t i = 0; i < pins.size(); ++i) {
      if (int(i) == own || pins[i].side != pins[own].side || pins[i].use == PortUse::electrical) continue;
      if (pins[i].at.x < pins[own].at.x) return false;
      others = true;
    }
    return others;
  }

  static Box beside_vertical(const TextBlock& text, const Pin& pin, bool left, int out, int beyond) {
    const int x = left ? pin.at.x - 1 - text.width : pin.at.x + 1;
    const int edge = pin.at.y + out * (1 + beyond);
    return at(x, out < 0 ? edge : edge - text.height, text);
  }

  static Box beside_level(const TextBlock& text, const Pin& pin, bool under, int out, int beyond) {
    const int edge = pin.at.x + out * (1 + beyond);
    return at(out < 0 ? edge : edge - text.width, under ? pin.at.y + 1 : pin.at.y - 1 - text.height, text);
  }

  // ---------------------------------------------------------------- tag and data

  using Texts = std::vector<const TextBlock*>;

  static Box size_of(const Texts& texts) {
    Box size{0, 0, 0, texts.empty() ? 0 : int(texts.size()) - 1};
    for (const TextBlock* text : texts) size.right = std::max(size.right, text->width), size.bottom += text->height;
    return size;
  }

  void keep_stack(const Texts& texts, const Box& box, bool flush_right) {
    int y = box.top;
    for (const TextBlock* text : texts) {
      const int x = flush_right ? box.right - text->width : box.left;
      keep(*text, at(x, y, *text), flush_right ? PlacedText::Align::right : PlacedText::Align::left);
      y += text->height + 1;
    }
  }

  // Beside the body at height `y`, or as near to it as is free; false when nothing within reach is.
  bool stack_beside(const Texts& texts, bool left, int y, int reach) {
    const Box size = size_of(texts);
    const int x = left ? body.left - 2 - size.right : body.right + 2;
    for (int step = 0; step <= reach; ++step)
      for (const int top : {y - step, y + step}) {
        const Box box{x, top, x + size.right, top + size.bottom};
        if (free(box)) return keep_stack(texts, box, left), true;
      }
    return false;
  }

  // Over or under the body from x on, as near as is free.
  bool stack_over(const Texts& texts, int x, bool under, int reach) {
    const Box size = size_of(texts);
    for (int step = 0; step <= reach; ++step) {
      const int top = under ? body.bottom + 2 + step : body.top - 2 - size.bottom - step;
      const Box box{x, top, x + size.right, top + size.bottom};
      if (free(box)) return keep_stack(texts, box, false), true;
    }
    return false;
  }

  // Always succeeds: right of the body and above its highest side port only texts can be in the way, and they end somewhere.
  void put_somewhere(const TextBlock& text) {
    Texts one{&text};
    if (!stack_beside(one, false, node.stand().centre.y, far)) stack_over(one, body.right + 2, false, far);
  }

  void put_stack(const Texts& texts) {
    if (texts.empty()) return;
    const Box size = size_of(texts);
    const int middle = node.stand().centre.y - size.bottom / 2;
    const int reach = (body.bottom - body.top) / 2 + size.bottom + 4;
    if (named(node, "cylinder") && stack_over(texts, body.left, false, 2)) return;
    if (node.item->prime_mover && stack_over(texts, body.left + 4, true, 2)) return;
    if (named(node, "pump") && stack_beside(texts, true, body.top + 2, reach)) return;
    if (named(node, "motor") && stack_beside(texts, true, body.top - 2, reach)) return;
    if (stack_beside(texts, node.text_left, middle, reach) || stack_beside(texts, !node.text_left, middle, reach)) return;
    stack_beside(texts, false, middle, far);
  }

  // The tag over the mark, in the middle; what follows under it.
  void put_mark_texts(const Texts& texts) {
    for (const TextBlock* text : texts) {
      const Box box = at(node.stand().centre.x - text->width / 2, text == texts[0] ? body.top - 2 - text->height : body.bottom + 2, *text);
      if (free(box)) keep(*text, box, PlacedText::Align::middle);
      else put_somewhere(*text);
    }
  }

  // A directional valve has four places: tag over the left operator, rated flow over the right one, codes outside.
  void put_valve_texts(const Texts& tags, const Texts& data) {
    for (const TextBlock* tag : tags) {
      const Box box{body.left, body.top + 2 - tag->height, body.left + tag->width, body.top + 2};
      if (free_on_strip(box)) keep(*tag, box, PlacedText::Align::left);
      else if (!stack_over({tag}, body.left, false, 12) && !stack_beside({tag}, true, body.top - 2, 8)) put_stack({tag});
    }
    int x = node.stand().centre.x + 4;
    for (const int t : node.taps)
      if (const Pin& pin = pin_of(plan, plan.taps[t]); pin.side == Side::above) x = std::max(x, pin.at.x + 6);
    const Box size = size_of(data);
    const Box box{x, body.top + 2 - size.bottom, x + size.right, body.top + 2};
    if (data.empty()) return;
    if (free_on_strip(box)) keep_stack(data, box, false);
    else if (!stack_over(data, x, false, 12)) put_stack(data);
  }

  // The strip of the stubs over a valve row is free but for the stubs themselves, joined or not.
  bool free_on_strip(const Box& box) const {
    if (!free(box, true) || node.stand().centre.y - body.top < stub + 2) return false;
    for (const Pin& pin : node.stand().pins)
      if (pin.side == Side::above && meets(box, {pin.at.x, pin.at.y, pin.at.x, pin.at.y + stub}, 1)) return false;
    return true;
  }

  void put_operator(const TextBlock& text, bool left) {
    const int top = node.stand().centre.y + 2 - (text.height + 1) / 2;
    if (stack_beside({&text}, left, top, 12)) return;
    put_somewhere(text);
  }

  void put_texts() {
    Texts tags, data, stack;
    for (const TextBlock& text : node.item->texts)
      if (text.kind == TextBlock::Kind::port) put_letter(text);
    for (const TextBlock& text : node.item->texts) {
      const auto kind = text.kind;
      if (kind == TextBlock::Kind::operator_left || kind == TextBlock::Kind::operator_right)
        put_operator(text, (kind == TextBlock::Kind::operator_left) != (node.stand().flip != (node.stand().quarters == 2)));
      if (kind == TextBlock::Kind::designation) tags.push_back(&text), stack.push_back(&text);
      if (kind == TextBlock::Kind::data) data.push_back(&text), stack.push_back(&text);
    }
    if (node.item->beside >= 0) put_mark_texts(stack);
    else if (named(node, "directional")) put_valve_texts(tags, data);
    else put_stack(stack);
    for (const TextBlock& text : node.item->texts)
      if (text.kind == TextBlock::Kind::load && !stack_beside({&text}, false, node.stand().centre.y - text.height / 2, 12))
        put_somewhere(text);
  }

  // ---------------------------------------------------------------- lines that turn, tank marks

  bool clear_of_solid(const Box& box, int gap) const {
    if (meets(box, body, gap)) return false;
    return std::none_of(solid.begin(), solid.end(), [&](const Box& other) { return meets(box, other, gap); });
  }

  // Of side ports going up the highest turns first, of those going down the lowest: nested, not crossed.
  void turn_sides() {
    std::vector<int> turning;
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      const Side side = pin_of(plan, tap).side;
      if ((side == Side::left || side == Side::right) && (tap.way == Way::up || tap.way == Way::down)) turning.push_back(t);
    }
    std::stable_sort(turning.begin(), turning.end(), [&](int a, int b) {
      const Tap &p = plan.taps[a], &q = plan.taps[b];
      if (p.way != q.way) return p.way == Way::up;
      const int y = pin_of(plan, p).at.y, z = pin_of(plan, q).at.y;
      return p.way == Way::up ? y < z : y > z;
    });
    for (const int t : turning) turn(plan.taps[t]);
  }

  void turn(Tap& tap) {
    const Pin& pin = pin_of(plan, tap);
    const int out = pin.side == Side::left ? -1 : 1;
    const int edge = out < 0 ? std::min(body.left, pin.at.x) : std::max(body.right, pin.at.x);
    const int wide = spread - std::abs(edge - node.stand().centre.x);
    for (int away = std::max(4, wide + (wide & 1));; away += 2) {
      const int x = edge + out * away;
      const Box line = tap.way == Way::up ? Box{x, -far, x, pin.at.y} : Box{x, pin.at.y, x, far};
      if (!clear_of_solid(line, 3)) continue;
      tap.lane = x;
      solid.push_back(line);
      return;
    }
  }

  void hang_marks() {
    for (const int t : node.taps)
      if (plan.taps[t].way == Way::hang) hang(plan.taps[t]);
  }

  // The mark hangs 2 M under the last corner, beside everything else of the cell (gold rule 8); from a side 4 M outside the
  // lanes there.
  void hang(Tap& tap) {
    const Pin& pin = pin_of(plan, tap);
    const bool below = pin.side == Side::below;
    const int out = pin.side == Side::left ? -1 : 1;
    const int first = below ? 0 : outermost_lane(out) + 8;
    const int last = outermost(out) + 16;
    for (int drop = 4;; drop += 2)
      for (int away = first; away <= last; away += 2)
        for (const int way : {out, -out})
          if ((way == out || below) && hangs(tap, pin, {pin.at.x + way * away, pin.at.y + drop}, below)) return;
  }

  bool hangs(Tap& tap, const Pin& pin, Point port, bool below) {
    const Box mark{port.x - 2, port.y, port.x + 2, port.y + 6};
    const int turn = below ? port.y - 4 : pin.at.y;          // height of the piece that leads aside
    const Box line{port.x, below ? turn : pin.at.y, port.x, port.y};
    const bool aside = port.x != pin.at.x;
    if (!clear_of_solid(mark, 2) || crosses_corridor(mark, below && !aside ? port.x : far)) return false;
    if (aside && !clear_of_solid(line, 2)) return false;
    if (below && aside && (turn < pin.at.y + 2 || !clear_of_solid({std::min(port.x, pin.at.x), turn, std::max(port.x, pin.at.x), turn}, 1)))
      return false;
    solid.push_back(mark);
    if (aside) solid.push_back(line);
    tap.lane = port.x;
    node.cell.marks.push_back(port);
    return true;
  }

  // How far from the body's edge on one side the lines turn; how far anything reaches.
  int outermost_lane(int out) const {
    int most = 0;
    for (const Box& box : solid)
      if (box.left == box.right) most = std::max(most, out < 0 ? body.left - box.left : box.right - body.right);
    return most;
  }
  int outermost(int out) const {
    int most = body.right - body.left;
    for (const Box& box : solid) most = std::max(most, out < 0 ? body.left - box.left : box.right - body.right);
    return most + (most & 1);
  }

  bool crosses_corridor(const Box& mark, int own_x) const {
    return std::any_of(corridors.begin(), corridors.end(), [&](const Box& line) {
      return !(line.left == own_x && line.right == own_x) && meets(mark, line, 1);
    });
  }

  static int even_down(int v) { return v - (v & 1); }
  static int even_up(int v) { return v + (v & 1); }

  void close() {
    Box room = body;
    for (const Box& box : solid) {
      room.left = std::min(room.left, box.left), room.right = std::max(room.right, box.right);
      if (box.top > -far) room.top = std::min(room.top, box.top);
      if (box.bottom < far) room.bottom = std::max(room.bottom, box.bottom);
    }
    node.cell.room = {even_down(room.left), room.top, even_up(room.right), room.bottom};
  }
};

}  // namespace

namespace {

bool turns_both_sides(const Plan& plan, const Node& node) {
  bool left = false, right = false;
  for (const int t : node.taps) {
    const Tap& tap = plan.taps[t];
    if (tap.way != Way::up && tap.way != Way::down) continue;
    left = left || pin_of(plan, tap).side == Side::left, right = right || pin_of(plan, tap).side == Side::right;
  }
  return left && right;
}

bool lies_between(const Plan& plan, const Node& node) {
  int tees = 0;
  for (const int t : node.taps) tees += plan.taps[t].way == Way::tee;
  return tees == 2 && node.taps.size() == 2;
}

void build(Plan& plan, Node& node, int spread) {
  if (node.item->trough || node.kind == Node::Kind::tail) return;   // texts wait for the trough's width
  CellBuilder builder(plan, node);
  builder.spread = spread;
  builder.put_texts();
  builder.turn_sides();
  builder.hang_marks();
  builder.close();
}

}  // namespace

// What lies between two lanes (cross reliefs) says how far an actuator's lines must spread to come down straight.
void build_cells(Plan& plan) {
  std::vector<int> spread(plan.blocks.size(), 0);
  for (const bool wide : {false, true})
    for (Node& node : plan.nodes) {
      const bool actuator = node.item->tier == Tier::actuator && turns_both_sides(plan, node);
      if (actuator != wide) continue;
      build(plan, node, wide ? spread[node.block] : 0);
      if (!lies_between(plan, node)) continue;
      const int width = node.cell.room.right - node.cell.room.left;
      spread[node.block] = std::max(spread[node.block], width / 2 + 4);
    }
}

}  // namespace ferrule::layout
