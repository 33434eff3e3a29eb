#include "render/sections/section.hpp"

#include <algorithm>
#include <cmath>

namespace ferrule::sections {
namespace {

using canvas::Point;

constexpr double bore = 6, neck = 2.8, recess = 10.5, half_housing = 20, channel = 2.5, drilling = 1.1, duct = 15;

std::vector<Point> box(double left, double top, double right, double bottom) {
  return {{std::min(left, right), top}, {std::max(left, right), top}, {std::max(left, right), bottom}, {std::min(left, right), bottom}};
}

struct Drawing {
  const Spool& spool;
  const Part& valve;
  std::size_t position;
  const Now& now;
  Section& out;
  double by;                        // the spool stands this far to the right

  void shape(Look look, std::vector<Point> outline, Oil oil = Oil::air) { out.shapes.push_back({look, std::move(outline), oil}); }
  void stroke(std::vector<Point> points, double width = 0.35, canvas::Pattern pattern = canvas::Pattern::solid, bool arrow = false) {
    out.strokes.push_back({std::move(points), width, pattern, arrow});
  }
  const PortNow* of(int port) const {
    const auto& name = spool.ports[static_cast<std::size_t>(port)];
    const auto found = std::find_if(now.ports.begin(), now.ports.end(), [&](const PortNow& p) { return p.port == name; });
    return found == now.ports.end() ? nullptr : &*found;
  }
  Oil oil(int port) const { return of(port) ? of(port)->oil : Oil::shut_in; }
};

double middle(const Interval& i) { return (i.from + i.to) / 2; }
bool overlap(const Interval& a, const Interval& b) { return std::min(a.to, b.to) - std::max(a.from, b.from) > 1e-9; }

// ---------------------------------------------------------------- housing and oil

// Working ports leave upward as in the symbol, supply and reservoir downward.
bool leaves_upward(const std::string& port) { return !port.starts_with('P') && !port.starts_with('T') && port != "R" && port != "S"; }

bool is_last_of_port(const Spool& spool, std::size_t k) {
  return std::none_of(spool.chambers.begin() + static_cast<std::ptrdiff_t>(k) + 1, spool.chambers.end(),
                      [&](const Chamber& c) { return c.port == spool.chambers[k].port; });
}

void add_arrow(Drawing& in, const PortNow& port, double x, bool up) {
  if (port.flow == 0) return;
  const double face = up ? -half_housing + 1 : half_housing - 1, inner = up ? -recess - 1 : recess + 1;
  const bool enters = port.flow > 0;
  in.stroke({{x, enters ? face : inner}, {x, enters ? inner : face}}, 0.6, canvas::Pattern::solid, true);
}

void add_channel(Drawing& in, std::size_t k) {
  const Chamber& chamber = in.spool.chambers[k];
  const std::string& port = in.spool.ports[static_cast<std::size_t>(chamber.port)];
  const double x = middle(chamber.at), side = leaves_upward(port) ? -1 : 1;
  if (!is_last_of_port(in.spool, k)) {  // goes to its fellow behind the plane
    in.shape(Look::oil, box(x - channel, side * recess * 0.9, x + channel, side * (duct + channel)), in.oil(chamber.port));
    return;
  }
  in.shape(Look::oil, box(x - channel, std::min(side * recess * 0.9, side * half_housing), x + channel, std::max(side * recess * 0.9, side * half_housing)), in.oil(chamber.port));
  in.out.words.push_back({{x, side < 0 ? -half_housing - 1.5 : half_housing + 4.2}, port});
  if (const PortNow* seen = in.of(chamber.port)) add_arrow(in, *seen, x, side < 0);
}

// Chambers of one port are joined by a duct behind the plane of the cut: two hidden edges.
void add_ducts(Drawing& in) {
  for (std::size_t a = 0; a < in.spool.chambers.size(); ++a)
    for (std::size_t b = a + 1; b < in.spool.chambers.size(); ++b) {
      if (in.spool.chambers[a].port != in.spool.chambers[b].port) continue;
      const double side = leaves_upward(in.spool.ports[static_cast<std::size_t>(in.spool.chambers[a].port)]) ? -1 : 1;
      for (const double y : {duct - 1.5, duct + 1.5})
        in.stroke({{middle(in.spool.chambers[a].at), side * y}, {middle(in.spool.chambers[b].at), side * y}}, 0.18, canvas::Pattern::pilot);
      break;
    }
}

// The oil of a groove is that of the chambers it opens to.
Oil oil_of_groove(const Drawing& in, const Interval& groove) {
  for (const Chamber& chamber : in.spool.chambers)
    if (overlap(groove, chamber.at)) return in.oil(chamber.port);
  return Oil::shut_in;
}

Oil oil_of_drilling(const Drawing& in) {
  for (const double hole : in.spool.holes) {
    const Interval mouth{hole - hole_radius + in.by, hole + hole_radius + in.by};
    for (const Chamber& chamber : in.spool.chambers)
      if (overlap(mouth, chamber.at)) return in.oil(chamber.port);
    for (std::size_t g = 0; g + 1 < in.spool.lands.size(); ++g)
      if (const Interval groove{in.spool.lands[g].to + in.by, in.spool.lands[g + 1].from + in.by}; overlap(mouth, groove)) return oil_of_groove(in, groove);
  }
  return Oil::shut_in;
}

void add_grooves(Drawing& in) {
  for (std::size_t g = 0; g + 1 < in.spool.lands.size(); ++g) {
    const Interval groove{in.spool.lands[g].to + in.by, in.spool.lands[g + 1].from + in.by};
    in.shape(Look::oil, box(groove.from, -bore, groove.to, bore), oil_of_groove(in, groove));
  }
}

// ---------------------------------------------------------------- the spool

void add_spool(Drawing& in) {
  std::vector<Point> above, below;
  for (std::size_t i = 0; i < in.spool.lands.size(); ++i) {
    const Interval land{in.spool.lands[i].from + in.by, in.spool.lands[i].to + in.by};
    if (i > 0) above.push_back({land.from, -neck}), below.push_back({land.from, neck});
    for (const double x : {land.from, land.to}) above.push_back({x, -bore}), below.push_back({x, bore});
    if (i + 1 < in.spool.lands.size()) above.push_back({land.to, -neck}), below.push_back({land.to, neck});
  }
  above.insert(above.end(), below.rbegin(), below.rend());
  in.shape(Look::spool, std::move(above));
  if (!in.spool.holes.empty()) {
    const Oil oil = oil_of_drilling(in);
    in.shape(Look::drilling, box(in.spool.holes.front() + in.by, -drilling, in.spool.holes.back() + in.by, drilling), oil);
    for (const double hole : in.spool.holes) {
      const auto on_land = std::any_of(in.spool.lands.begin(), in.spool.lands.end(), [&](const Interval& land) { return hole > land.from && hole < land.to; });
      const double reach = on_land ? bore : neck;
      in.shape(Look::drilling, box(hole + in.by - hole_radius, -reach, hole + in.by + hole_radius, reach), oil);
    }
  }
}

// ---------------------------------------------------------------- ends: caps, springs, what shifts the spool

constexpr double cap = 20, half_cap = 16, space = 16, half_space = 7.5, coil = 22, pin = 1.2, armature = 4;

struct End {
  double side;                      // -1 left, +1 right
  double face;                      // of the housing
  double at(double outward) const { return face + side * outward; }
};

// What pushes from this end: the operators of the positions that it brings.
std::vector<std::pair<const Actuation*, std::size_t>> operators_at(const Drawing& in, const End& end) {
  std::vector<std::pair<const Actuation*, std::size_t>> out;
  for (std::size_t p = 0; p < in.valve.positions.size(); ++p)
    for (const Actuation& by : in.valve.positions[p].by)
      if (in.spool.offsets[p] * end.side < 0) out.emplace_back(&by, p);
  return out;
}

bool has_spring(const Drawing& in, const End& end) {
  const bool springs = std::any_of(in.valve.positions.begin(), in.valve.positions.end(), [](const PositionRow& row) {
    return std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) { return by.means.starts_with("spring"); });
  });
  return springs && std::any_of(in.spool.offsets.begin(), in.spool.offsets.end(), [&](double offset) { return offset * end.side > 0; });
}

// Its plate stays at the face of the housing when the spool leaves it.
void add_spring(Drawing& in, const End& end) {
  const double plate = std::max(0.0, end.side * in.by);
  in.shape(Look::part, box(end.at(plate), -bore - 0.8, end.at(plate + 1), bore + 0.8));
  std::vector<Point> zigzag;
  constexpr int turns = 11;
  for (int i = 0; i <= turns; ++i) zigzag.push_back({end.at(plate + 1 + (space - plate - 1) * i / turns), i == 0 || i == turns ? 0.0 : i % 2 ? -5.0 : 5.0});
  in.stroke(std::move(zigzag), 0.5);
}

void add_solenoid(Drawing& in, const End& end, const Actuation& by, double moved) {
  const bool on = std::find(in.now.energised.begin(), in.now.energised.end(), by.tag) != in.now.energised.end();
  for (const double side : {-1.0, 1.0}) {
    const double top = side < 0 ? -8 : 3;
    in.shape(on ? Look::coil_on : Look::coil_off, box(end.at(cap), top, end.at(cap + coil), top + 5));
  }
  in.shape(Look::part, box(end.at(cap + 9 + moved), -2.4, end.at(cap + 9 + armature + moved), 2.4));
  in.out.words.push_back({{end.at(cap + coil / 2), -10}, by.tag + (on ? " on" : " off")});
}

// By hand, foot, roller: a knob at the end of the pin, and the word.
void add_push(Drawing& in, const End& end, const Actuation& by, double moved) {
  in.shape(Look::part, box(end.at(cap + 9 + moved), -3.5, end.at(cap + 11 + moved), 3.5));
  in.out.words.push_back({{end.at(cap + 12), -10}, by.means});
}

void add_end(Drawing& in, const End& end) {
  in.shape(Look::cap, box(end.at(0), -half_cap, end.at(cap), half_cap));
  const auto operators = operators_at(in, end);
  const auto pilot = std::find_if(operators.begin(), operators.end(), [](const auto& o) { return o.first->means == "pilot"; });
  const bool pressed = pilot != operators.end() && pilot->second == in.position;
  in.shape(Look::oil, box(end.at(0), -half_space, end.at(space), half_space), pilot == operators.end() ? Oil::air : pressed ? Oil::pressed : Oil::returns);
  if (pilot != operators.end()) {
    in.shape(Look::oil, box(end.at(space / 2) - 1.5, -half_cap, end.at(space / 2) + 1.5, -half_space + 1), pressed ? Oil::pressed : Oil::returns);
    in.out.words.push_back({{end.at(space / 2), -half_cap - 1.5}, pilot->first->tag});
  }
}

// Over the oil and the spool: springs, pins, armatures.
void add_moving_end(Drawing& in, const End& end) {
  const double moved = end.side * in.by;
  const auto operators = operators_at(in, end);
  const auto pushes = std::find_if(operators.begin(), operators.end(), [](const auto& o) { return o.first->means != "pilot" && !o.first->means.starts_with("spring"); });
  const bool pushed = pushes != operators.end();
  if (pushed) {
    in.shape(Look::part, box(end.at(moved), -pin, end.at(cap + 9 + moved), pin));
    const bool solenoid = pushes->first->means.find("solenoid") != std::string::npos;
    if (solenoid) add_solenoid(in, end, *pushes->first, moved);
    else add_push(in, end, *pushes->first, moved);
  }
  if (has_spring(in, end)) add_spring(in, end);
  const double reach = end.at(pushed ? cap + coil : cap);
  in.out.left = std::min(in.out.left, reach);
  in.out.right = std::max(in.out.right, reach);
}

}  // namespace

Oil oil_of(Condition condition) {
  switch (condition) {
    case Condition::fed: return Oil::pressed;
    case Condition::circulates: return Oil::circulates;
    case Condition::returned:
    case Condition::drained:
    case Condition::suction: return Oil::returns;
    case Condition::open: return Oil::air;
    case Condition::blocked:
    case Condition::trapped: break;
  }
  return Oil::shut_in;
}

std::string_view words_of(Oil oil) {
  constexpr std::string_view words[] = {"under pressure", "return, suction or drain", "circulates at low pressure", "shut in", "air or drained"};
  return words[static_cast<std::size_t>(oil)];
}

Section section_of(const Spool& spool, const Part& valve, std::size_t position, const Now& now) {
  Section out{0, spool.length, -half_housing - 5, half_housing + 5, {}, {}, {}};
  Drawing in{spool, valve, position, now, out, spool.offsets[position]};
  const End left{-1, 0}, right{1, spool.length};
  in.shape(Look::housing, box(0, -half_housing, spool.length, half_housing));
  add_end(in, left);
  add_end(in, right);
  for (std::size_t k = 0; k < spool.chambers.size(); ++k) {
    const Chamber& chamber = spool.chambers[k];
    in.shape(Look::oil, box(chamber.at.from, -recess, chamber.at.to, recess), in.oil(chamber.port));
    add_channel(in, k);
  }
  add_grooves(in);
  add_ducts(in);
  add_spool(in);
  add_moving_end(in, left);
  add_moving_end(in, right);
  in.stroke({{out.left - 2, 0}, {out.right + 2, 0}}, 0.18, canvas::Pattern::chain);
  return out;
}

}  // namespace ferrule::sections
