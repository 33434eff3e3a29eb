#include "layout/kit.hpp"

#include <cmath>

namespace kit {

namespace {

int half(double modules) { return int(std::lround(modules * 2)); }

Side turned(Side side) {
  switch (side) {
    case Side::above: return Side::right;
    case Side::right: return Side::below;
    case Side::below: return Side::left;
    case Side::left: return Side::above;
  }
  return side;
}

Pose pose(const Shape& shape, int variant, bool flip, int quarters) {
  Pose result;
  result.variant = variant, result.flip = flip, result.quarters = quarters;
  const auto move = [&](Point p) {
    if (flip) p.x = -p.x;
    for (int q = 0; q < quarters; ++q) p = {-p.y, p.x};
    return p;
  };
  const auto outward = [](double v) { return v < 0 ? int(std::floor(v * 2)) : int(std::ceil(v * 2)); };
  const Point a = move({outward(shape.left), outward(shape.top)}), b = move({outward(shape.right), outward(shape.bottom)});
  result.box = {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
  result.centre = move({half(shape.cx), half(shape.cy)});
  for (const PinSpec& spec : shape.pins) {
    Side side = spec.side;
    if (flip && (side == Side::left || side == Side::right)) side = side == Side::left ? Side::right : Side::left;
    for (int q = 0; q < quarters; ++q) side = turned(side);
    result.pins.push_back({spec.name, move({half(spec.x), half(spec.y)}), side, spec.use});
  }
  return result;
}

}  // namespace

std::vector<Pose> poses(const Shape& shape, int variant) {
  std::vector<Pose> all{pose(shape, variant, false, 0), pose(shape, variant, true, 0)};
  if (!shape.upright)
    for (const int quarters : {1, 2, 3})
      for (const bool flip : {false, true}) all.push_back(pose(shape, variant, flip, quarters));
  return all;
}

constexpr auto M = PortUse::mechanical;
constexpr auto X = PortUse::pilot;
constexpr auto L = PortUse::drain;
constexpr auto a = Side::above, b = Side::below, l = Side::left, r = Side::right;

Shape fixed_pump() { return {-4, -5, 6, 5, 0, 0, {{"P", 0, -5, a}, {"S", 0, 5, b}, {"shaft", 6, 0, r, M}, {"shaft2", -4, 0, l, M}}}; }
Shape drained_pump() { return {-4, -5, 6, 5, 0, 0, {{"P", 0, -5, a}, {"S", 0, 5, b}, {"shaft", 6, 0, r, M}, {"L", 3, 5, b, L}}}; }
Shape signal_pump() {
  return {-6, -5, 6, 5, 0, 0, {{"P", 0, -5, a}, {"S", 0, 5, b}, {"shaft", 6, 0, r, M}, {"L", 3, 5, b, L}, {"X", -6, 0, l, X}}};
}
Shape electric_motor() { return {-5, -3, 3, 3, 0, 0, {{"shaft", -5, 0, l, M}}, true}; }
Shape relief() { return {-1, -2, 6.5, 6, 2, 2, {{"P", 2, -2, a}, {"T", 2, 6, b}}}; }
Shape unloading() { return {-3, -2, 6.5, 6, 2, 2, {{"P", 2, -2, a}, {"T", 2, 6, b}, {"X", -3, 2, l, X}}}; }
Shape gauge() { return {-3, -3, 3, 4, 0, 0, {{"P", 0, 4, b}}, true}; }
Shape gauge_isolator() { return {-6.5, -2, 6, 6, 2, 2, {{"1", 2, 6, b}, {"2", 2, -2, a}}}; }
Shape check() { return {-1, -2, 1, 2, 0, 0, {{"IN", 0, 2, b}, {"OUT", 0, -2, a}}}; }
Shape piloted_check() { return {-4, -4, 2, 4, 0, 0, {{"IN", 0, 4, b}, {"OUT", 0, -4, a}, {"X", -4, 0, l, X}}}; }
Shape double_piloted_check() {
  return {-6, -4, 6, 4, 0, 0, {{"V1", -4, 4, b}, {"V2", 4, 4, b}, {"C1", -4, -4, a}, {"C2", 4, -4, a}}};
}
Shape throttle_check() { return {-2, -4, 5, 4, 0, 0, {{"IN", 0, -4, a}, {"OUT", 0, 4, b}}}; }
Shape counterbalance() { return {-4, -6, 11, 10, 2, 2, {{"C", 2, -6, a}, {"V", 2, 10, b}, {"X", -4, 3, l, X}}}; }
Shape sequence_check() { return {-5, -4, 6.5, 8, 2, 2, {{"IN", 2, 8, b}, {"OUT", 2, -4, a}, {"Y", 5, 8, b, L}}}; }
Shape reducing() { return {-1, -2, 6.5, 6, 2, 2, {{"IN", 2, 6, b}, {"OUT", 2, -2, a}, {"Y", 5, 6, b, L}}}; }
Shape valve(bool two) {
  return {-7, -2, two ? 11.0 : 6.0, 6, 2, 2, {{"A", 1, -2, a}, {"B", 3, -2, a}, {"P", 1, 6, b}, {"T", 3, 6, b}}};
}
Shape valve_3_2() { return {-7, -2, 6, 6, 2, 2, {{"A", 1, -2, a}, {"P", 1, 6, b}, {"T", 3, 6, b}}}; }
Shape section() {
  return {-13, -6, 16, 20, 3, 2, {{"A", 1, -6, a}, {"B", 5, -6, a}, {"P", 3, 20, b}, {"T", 8, 20, b}, {"LS", -13, 13, l, X}}};
}
Shape cylinder() { return {0, 0, 12, 6, 5, 2, {{"A", 1, 6, b}, {"B", 9, 6, b}, {"rod", 12, 2, r, M}}}; }
Shape single_acting() { return {0, 0, 12, 6, 5, 2, {{"A", 1, 6, b}, {"rod", 12, 2, r, M}}}; }
Shape load() { return {0, -2, 4, 2, 2, 0, {{"rod", 0, 0, l, M}}}; }
Shape hydraulic_motor() { return {-4, -5, 6, 5, 0, 0, {{"A", 0, -5, a}, {"B", 0, 5, b}, {"shaft", 6, 0, r, M}, {"L", 3, 5, b, L}}}; }
Shape filter() { return {-6, -6, 3, 6, 0, 0, {{"IN", 0, 6, b}, {"OUT", 0, -6, a}}, true}; }
Shape filter_down() { return {-6, -6, 3, 6, 0, 0, {{"IN", 0, -6, a}, {"OUT", 0, 6, b}}, true}; }
Shape cooler() { return {-3, -4, 9, 4, 0, 0, {{"IN", 0, 4, b}, {"OUT", 0, -4, a}}}; }
Shape accumulator() { return {-2, -4, 2, 6, 0, 0, {{"P", 0, 6, b}}, true}; }
Shape ball_valve() { return {-1, -3, 1, 3, 0, 0, {{"1", 0, 3, b}, {"2", 0, -3, a}}}; }
Shape strainer() { return {-2, -4, 2, 2, 0, 0, {{"IN", 0, 2, b}, {"OUT", 0, -4, a}}, true}; }
Shape breather() { return {-2, -4.5, 2, 4, 0, 0, {{"T", 0, 4, b}}, true}; }
Shape pressure_switch() { return {-1, -2.5, 5, 6, 2, 2, {{"P", 2, 6, b}}, true}; }
Shape shuttle() { return {-4, -3, 4, 1, 0, 0, {{"1", -4, 0, l}, {"2", 4, 0, r}, {"OUT", 0, -3, a}}}; }
Shape orifice() { return {-1, -2, 1, 2, 0, 0, {{"1", 0, 2, b}, {"2", 0, -2, a}}}; }

int width_of(const std::string& words) { return int(std::ceil(double(words.size()) * 0.81 * 1.25 * 2)); }

int Maker::add(const std::string& id, const std::string& family, Tier tier, int branch, const Shape& shape, std::vector<std::string> rows) {
  Item item;
  item.id = id, item.family = family, item.tier = tier, item.branch = branch;
  item.poses = poses(shape);
  item.texts.push_back({TextBlock::Kind::designation, id + ":tag " + id, width_of(id), 3, -1});
  std::string words;
  int width = 0;
  for (const std::string& row : rows) width = std::max(width, width_of(row)), words += (words.empty() ? "" : "|") + row;
  if (width) item.texts.push_back({TextBlock::Kind::data, id + ":data " + words, width, int(rows.size()) * 4 - 1, -1});
  problem.items.push_back(std::move(item));
  return int(problem.items.size()) - 1;
}

int Maker::reservoir(const std::string& id, int entries, std::vector<std::string> rows) {
  Shape shape{-6, 0, 6, 4, 0, 2, {}, true};
  const int item = add(id, "reservoir", Tier::supply, 0, shape, rows);
  Item& it = problem.items[item];
  it.trough = true;
  for (Pose& p : it.poses)
    for (int e = 0; e < entries; ++e) p.pins.push_back({std::to_string(e), {0, 0}, Side::above, PortUse::main});
  return item;
}

End Maker::end(const std::string& at) const {
  const auto dot = at.find('.');
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    if (problem.items[i].id != at.substr(0, dot)) continue;
    const auto& pins = problem.items[i].poses[0].pins;
    for (std::size_t p = 0; p < pins.size(); ++p)
      if (pins[p].name == at.substr(dot + 1)) return {int(i), int(p)};
  }
  return {-1, -1};
}

int Maker::net(const std::string& id, NetKind kind, const std::vector<std::string>& ends) {
  Net result;
  result.id = id, result.kind = kind;
  for (const std::string& at : ends) result.ends.push_back(end(at));
  problem.nets.push_back(std::move(result));
  return int(problem.nets.size()) - 1;
}

void Maker::text(int net, const std::string& words, const std::vector<std::string>& near) {
  LineText text{problem.nets[net].id + ":line " + words, width_of(words), 3, {}};
  for (const std::string& at : near) text.near.push_back(end(at));
  problem.nets[net].texts.push_back(std::move(text));
}

void Maker::letters(int item, const std::vector<std::string>& pins) {
  Item& it = problem.items[item];
  for (std::size_t p = 0; p < it.poses[0].pins.size(); ++p)
    for (const std::string& name : pins)
      if (it.poses[0].pins[p].name == name)
        it.texts.push_back({TextBlock::Kind::port, it.id + ":port" + name + " " + name, width_of(name), 3, int(p)});
}

void Maker::code(int item, bool left, const std::string& words) {
  problem.items[item].texts.push_back({left ? TextBlock::Kind::operator_left : TextBlock::Kind::operator_right,
                                       problem.items[item].id + ":code " + words, width_of(words), 3, -1});
}

}  // namespace kit
