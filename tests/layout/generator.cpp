#include "layout/generator.hpp"

#include <algorithm>

namespace generator {

using namespace kit;

namespace {

struct Plant {
  Maker m;
  Dice dice;
  bool numbered;
  int tank = -1, next_tank = 0;
  Net pressure{"P", NetKind::pressure, {}, {}, {}, {}}, back{"T", NetKind::return_, {}, {}, {}, {}};

  Plant(std::uint64_t seed, bool n) : dice(seed), numbered(n) {}

  int add(const std::string& id, const std::string& family, Tier tier, int branch, const Shape& shape, std::vector<std::string> rows = {}) {
    return m.add(id, family, tier, numbered ? branch : branch == 0 ? 0 : -1, shape, std::move(rows));
  }

  End at(int item, const char* pin) const {
    const auto& pins = m.problem.items[item].poses[0].pins;
    for (std::size_t p = 0; p < pins.size(); ++p)
      if (pins[p].name == pin) return {item, int(p)};
    return {-1, -1};
  }

  End tank_end() { return {tank, next_tank++ % 8}; }

  Net& join(const std::string& id, NetKind kind, std::vector<End> ends) {
    m.problem.nets.push_back({id, kind, std::move(ends), {}, {}, {}});
    return m.problem.nets.back();
  }

  void name(Net& net, const std::string& words, std::vector<End> near) {
    net.texts.push_back({net.id + ":line " + words, width_of(words), 3, std::move(near)});
  }

  void supply() {
    tank = m.reservoir("0Z1", 8, {"250 L", "HLP 46"});
    const int strainer_ = add("0Z2", "filter", Tier::supply, 0, strainer(), {"125 um"});
    m.problem.items[strainer_].in_trough = true, m.problem.items[strainer_].host = tank;
    if (dice.roll(2)) {
      const int breather_ = add("0Z3", "breather", Tier::supply, 0, breather(), {"10 um"});
      m.problem.items[breather_].on_cover = true, m.problem.items[breather_].host = tank;
    }
    const int pump = add("0P1", "pump", Tier::supply, 0, dice.roll(2) ? drained_pump() : fixed_pump(), {"10 cm3/r"});
    const int motor = add("0M1", "prime-mover", Tier::supply, 0, electric_motor(), {"5 kW"});
    m.problem.items[motor].prime_mover = true;
    const int rv = add("0V1", "relief", Tier::supply, 0, relief(), {"200 bar"});
    join("shaft", NetKind::mechanical, {at(pump, "shaft"), at(motor, "shaft")});
    name(join("suction", NetKind::suction, {at(pump, "S"), at(strainer_, "OUT")}), "L1 35 x 2", {at(pump, "S")});
    if (at(pump, "L").item >= 0) join("0L", NetKind::drain, {at(pump, "L"), tank_end()});
    join("0T", NetKind::return_, {at(rv, "T"), tank_end()});
    End outlet = at(pump, "P");
    if (dice.roll(2)) {
      const int cv = add("0V2", "check", Tier::supply, 0, check());
      join("0A", NetKind::pressure, {outlet, at(cv, "IN"), at(rv, "P")});
      outlet = at(cv, "OUT");
    } else {
      pressure.ends.push_back(at(rv, "P"));
    }
    pressure.ends.push_back(outlet);
    if (dice.roll(2)) gauge_on_pressure();
    if (dice.roll(3) == 0) {
      const int acc = add("0Z5", "accumulator", Tier::supply, 0, accumulator(), {"10 L", "p0 100 bar"});
      pressure.ends.push_back(at(acc, "P"));
    }
    return_line();
  }

  void gauge_on_pressure() {
    const int isolator = add("0V3", "valve", Tier::supply, 0, gauge_isolator());
    const int dial = add("0Z4", "gauge", Tier::supply, 0, gauge(), {"0...250 bar"});
    pressure.ends.push_back(at(isolator, "1"));
    join("0G", NetKind::pressure, {at(isolator, "2"), at(dial, "P")});
  }

  void return_line() {
    const int kind = dice.roll(3);
    if (kind == 0) return back.ends.push_back(tank_end());
    const int f = add("0Z6", "filter", Tier::supply, 0, filter(), {"10 um", "2 bar"});
    for (const Pose& pose : poses(filter_down(), 1)) m.problem.items[f].poses.push_back(pose);
    End inlet = at(f, "IN");
    join("0F", NetKind::return_, {at(f, "OUT"), tank_end()});
    if (kind == 2) {
      const int c = add("0Z7", "cooler", Tier::supply, 0, cooler(), {"6 kW"});
      join("0C", NetKind::return_, {at(c, "OUT"), inlet});
      inlet = at(c, "IN");
    }
    back.ends.push_back(inlet);
  }

  void branch(int b) { branch(b, dice.roll(12)); }

  void branch(int b, int kind) {
    const std::string n = std::to_string(b);
    const bool single = kind == 1;
    const int v = add(n + "V1", "directional", Tier::control, b, single ? valve_3_2() : valve(kind % 2), {"40 L/min at 5 bar"});
    m.letters(v, {"A", "B", "P", "T"});
    m.code(v, true, n + "Y1");
    if (!single) m.code(v, false, n + "Y2");
    back.ends.push_back(at(v, "T"));
    supply_of(b, n, at(v, "P"), kind == 2);
    const bool motor = kind == 3 || kind == 4;
    const int a = motor ? add(n + "A1", "motor", Tier::actuator, b, hydraulic_motor(), {"turn", "160 cm3/r"})
                        : add(n + "A1", "cylinder", Tier::actuator, b, single ? single_acting() : cylinder(), {"move " + n, "63/36 x 80"});
    m.letters(a, {"A", "B"});
    if (!motor && dice.roll(4) == 0) {
      const int mass = add(n + "load", "load", Tier::actuator, b, load(), {"12 kN"});
      join(n + "R", NetKind::mechanical, {at(a, "rod"), at(mass, "rod")});
    }
    lanes(b, n, kind, v, a, single);
  }

  void supply_of(int b, const std::string& n, End inlet, bool reduced) {
    if (!reduced) return pressure.ends.push_back(inlet);
    const int r = add(n + "V9", "reducing", Tier::control, b, reducing(), {"60 bar"});
    join(n + "P", NetKind::pressure, {at(r, "OUT"), inlet});
    join(n + "Y", NetKind::drain, {at(r, "Y"), tank_end()});
    pressure.ends.push_back(at(r, "IN"));
  }

  void lanes(int b, const std::string& n, int kind, int v, int a, bool single) {
    Net A{n + "A", NetKind::working, {at(v, "A")}, {}, {}, {}}, B{n + "B", NetKind::working, {at(v, "B")}, {}, {}, {}};
    End head = at(a, "A"), rod = single ? End{} : at(a, "B");
    const auto in_lane = [&](Net& lane, const char* tag, const Shape& shape, const char* in, const char* out, End& end, std::vector<std::string> rows) {
      const int part = add(n + tag, "modulation", Tier::modulation, b, shape, rows);
      lane.ends.push_back(at(part, in));
      Net upper{lane.id + tag, NetKind::working, {at(part, out), end}, {}, {}, {}};
      m.problem.nets.push_back(upper);
      end = {-1, -1};
      return part;
    };
    if (kind == 5 || kind == 6) in_lane(A, "V2", throttle_check(), "OUT", "IN", head, {});
    if (kind == 6) in_lane(B, "V3", throttle_check(), "OUT", "IN", rod, {});
    if (kind == 7 || kind == 8) {
      const int part = in_lane(A, "V2", kind == 7 ? piloted_check() : counterbalance(), kind == 7 ? "IN" : "V", kind == 7 ? "OUT" : "C", head, {"90 bar", "4:1"});
      B.ends.push_back(at(part, "X")), B.pilot_ends.push_back(at(part, "X"));
    }
    if (kind == 9) {
      const int lock = add(n + "V2", "modulation", Tier::modulation, b, double_piloted_check());
      A.ends.push_back(at(lock, "V1")), B.ends.push_back(at(lock, "V2"));
      join(n + "C1", NetKind::working, {at(lock, "C1"), head}), join(n + "C2", NetKind::working, {at(lock, "C2"), rod});
      head = rod = {-1, -1};
    }
    if (kind == 4)
      for (const bool first : {true, false}) {
        const int r = add(n + (first ? "V2" : "V3"), "relief", Tier::modulation, b, relief(), {"140 bar"});
        (first ? A : B).ends.push_back(at(r, "P")), (first ? B : A).ends.push_back(at(r, "T"));
      }
    if (kind == 10) {
      const int second = add(n + "A2", "cylinder", Tier::actuator, b, cylinder(), {"twin"});
      A.ends.push_back(at(second, "A")), B.ends.push_back(at(second, "B"));
    }
    if (kind == 11) A.ends.push_back(at(add(n + "S1", "switch", Tier::modulation, b, pressure_switch(), {"50 bar rising"}), "P"));
    if (at(a, "L").item >= 0) join(n + "L", NetKind::drain, {at(a, "L"), tank_end()});
    if (head.item >= 0) A.ends.push_back(head);
    if (rod.item >= 0) B.ends.push_back(rod);
    if (dice.roll(2)) name(A, n + " 16 x 2", {at(v, "A")});
    if (dice.roll(3) == 0) name(B, n + " hose 12", {at(v, "B")});
    m.problem.nets.push_back(A);
    if (!single) m.problem.nets.push_back(B);
  }
};

}  // namespace

Problem circuit(std::uint64_t seed, int branches, bool numbered) {
  Plant plant(seed, numbered);
  plant.supply();
  for (int b = 1; b <= branches; ++b) plant.branch(b);
  if (plant.pressure.ends.size() > 1) plant.name(plant.pressure, "P 25 x 3", {plant.pressure.ends.front()});
  plant.m.problem.nets.push_back(plant.pressure);
  plant.m.problem.nets.push_back(plant.back);
  return plant.m.problem;
}

Problem nonsense(std::uint64_t seed, int items, int nets) {
  Dice dice(seed);
  Maker m;
  const std::vector<Shape> shapes{fixed_pump(), signal_pump(), electric_motor(), relief(), unloading(), gauge(), gauge_isolator(), check(),
                                  piloted_check(), double_piloted_check(), counterbalance(), sequence_check(), valve(), section(), cylinder(),
                                  load(), hydraulic_motor(), filter(), accumulator(), pressure_switch(), shuttle()};
  const char* families[] = {"pump", "relief", "gauge", "directional", "cylinder", "motor", "check", "filter", "section", "odd"};
  for (int r = 0; r < 1 + dice.roll(2); ++r) m.reservoir("R" + std::to_string(r), 3, {"some litres"});
  for (int i = 0; i < items; ++i) {
    const std::string id = "N" + std::to_string(i);
    const std::string words = dice.roll(4) ? "12 bar" : std::string(60, 'w');
    const int item = m.add(id, families[dice.roll(10)], Tier(dice.roll(4)), dice.roll(6) - 1, shapes[dice.roll(int(shapes.size()))], {words});
    if (dice.roll(3) == 0) m.letters(item, {"A", "B", "P", "T", "X", "L", "1", "2", "C", "V"});
    if (dice.roll(4) == 0) m.code(item, dice.roll(2), "Y" + id);
    if (dice.roll(9) == 0) m.problem.items[item].on_cover = true, m.problem.items[item].host = 0;
  }
  std::vector<End> free;
  for (std::size_t i = 0; i < m.problem.items.size(); ++i)
    for (std::size_t p = 0; p < m.problem.items[i].poses[0].pins.size(); ++p)
      if (!m.problem.items[i].on_cover) free.push_back({int(i), int(p)});
  for (int n = 0; n < nets && free.size() > 2; ++n) {
    Net net{"n" + std::to_string(n), NetKind(dice.roll(7)), {}, {}, {}, {}};
    const int count = 2 + (dice.roll(3) ? 0 : dice.roll(5));
    for (int e = 0; e < count && !free.empty(); ++e) {
      const int k = dice.roll(int(free.size()));
      net.ends.push_back(free[k]);
      free.erase(free.begin() + k);
    }
    bool real = false;
    for (const End& end : net.ends) real = real || !m.problem.items[end.item].trough;
    if (net.ends.size() < 2 || !real) continue;
    if (dice.roll(2)) net.texts.push_back({net.id + ":line L" + net.id, 14, 3, {net.ends[0]}});
    m.problem.nets.push_back(std::move(net));
  }
  return m.problem;
}

}  // namespace generator
