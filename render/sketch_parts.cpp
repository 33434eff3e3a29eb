#include "render/sketch_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ferrule {
namespace {

using layout::TextBlock;
using layout::Tier;

bool is_beside(const Definition& definition, std::string_view hint) {
  return std::find(definition.beside.begin(), definition.beside.end(), hint) != definition.beside.end();
}

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// ---------------------------------------------------------------- tier, branch, group

Tier tier_named(std::string_view word) {
  if (word == "supply") return Tier::supply;
  if (word == "modulation") return Tier::modulation;
  if (word == "actuator") return Tier::actuator;
  return Tier::control;
}

// What stands in the supply's circuit belongs to its rows, and what stands in a branch does not, whatever it usually is.
Tier tier_of(const Part& part) {
  const Tier usual = tier_named(part.definition->tier);
  if (part.circuit_number == 0 && usual != Tier::actuator) return Tier::supply;
  if (part.circuit_number > 0 && usual == Tier::supply) return Tier::modulation;
  return usual;
}

int group_of(SketchParts& parts, const std::string& assembly) {
  if (assembly.empty()) return -1;
  if (const auto known = parts.groups.find(assembly); known != parts.groups.end()) return known->second;
  const std::size_t dot = assembly.rfind('.');
  const int parent = dot == std::string::npos ? -1 : group_of(parts, assembly.substr(0, dot));
  const int index = static_cast<int>(parts.sketch.problem.groups.size());
  layout::Group group{assembly, assembly, parent};
  parts.measure(group.width, group.height, {assembly});
  parts.sketch.texts["group:" + assembly] = {assembly, "note", "", {assembly}};
  parts.sketch.problem.groups.push_back(std::move(group));
  parts.groups[assembly] = index;
  return index;
}

// ---------------------------------------------------------------- texts

void add_text(SketchParts& parts, layout::Item& item, TextBlock::Kind kind, const std::string& name, std::vector<std::string> rows, const std::string& word,
              int pin = -1, const std::string& port = {}) {
  if (rows.empty()) return;
  TextBlock block{kind, item.id + ":" + name, 0, 0, pin};
  parts.measure(block.width, block.height, rows);
  parts.sketch.texts[block.id] = {item.id, word, port, std::move(rows)};
  item.texts.push_back(std::move(block));
}

bool is_row(const SketchItem& source) { return !source.figures.empty() && source.figures.front().fixed; }

// A valve with four boxes and operators outside has its tag and its data at different places; others have one block.
void add_designation(SketchParts& parts, layout::Item& item, const SketchItem& source, const Part& part) {
  std::vector<std::string> rows = data_rows(parts.circuit, part);
  if (is_row(source) || is_beside(*part.definition, "at-rod")) {
    add_text(parts, item, TextBlock::Kind::designation, "d", {part.tag}, "designation");
    add_text(parts, item, TextBlock::Kind::data, "s", std::move(rows), "setting");
    return;
  }
  rows.insert(rows.begin(), part.tag);
  add_text(parts, item, TextBlock::Kind::designation, "d", std::move(rows), "designation");
}

void add_operators(SketchParts& parts, layout::Item& item, const SketchItem& source) {
  for (const symbols::OperatorEnd& end : source.figures.front().operators)
    if (!end.tag.empty())
      add_text(parts, item, end.left ? TextBlock::Kind::operator_left : TextBlock::Kind::operator_right, end.tag, {end.tag}, "designation");
}

// Letters stand where a reader could take one port for another: at valve rows and actuators, and at pilots and drains.
void add_port_letters(SketchParts& parts, layout::Item& item, const SketchItem& source) {
  const auto& strokes = source.figures.front().strokes;
  const bool framed = std::any_of(strokes.begin(), strokes.end(), [](const Stroke& stroke) { return stroke.kind == StrokeKind::chain; });
  const bool all = is_row(source) || item.tier == Tier::actuator || framed;
  const auto& pins = item.poses.front().pins;
  for (std::size_t i = 0; i < pins.size(); ++i) {
    const bool dashed = pins[i].use == PortUse::pilot || pins[i].use == PortUse::drain;
    const bool oil = dashed || pins[i].use == PortUse::main;
    if (oil && (all || dashed) && item.tier != Tier::supply) add_text(parts, item, TextBlock::Kind::port, "p" + std::to_string(i + 1), {pins[i].name}, "port", static_cast<int>(i), pins[i].name);
  }
}

// ---------------------------------------------------------------- items

// "1A1 squeeze, double-acting cylinder".
std::string title_of(const Part& part) {
  return part.tag + " " + (part.description.empty() ? "" : part.description + ", ") + part.definition->term;
}

int add(SketchParts& parts, layout::Item item, SketchItem source) {
  parts.sketch.problem.items.push_back(std::move(item));
  parts.sketch.items.push_back(std::move(source));
  return static_cast<int>(parts.sketch.items.size()) - 1;
}

int first_trough(const Sketch& sketch) {
  for (std::size_t i = 0; i < sketch.problem.items.size(); ++i)
    if (sketch.problem.items[i].trough) return static_cast<int>(i);
  return -1;
}

void add_part(SketchParts& parts, PartId id) {
  const Part& part = parts.circuit.parts[id];
  if (part.definition == nullptr || part.definition->role("line") != nullptr) return;
  SketchItem source{id, "", title_of(part), "", symbols::figures_of(parts.library, parts.circuit, id, parts.view ? parts.view->position[id.index] : -1), {}, {}, {}};
  if (source.figures.empty()) return;
  source.kind = is_row(source) ? part.definition->name : source.figures.front().name;
  layout::Item item;
  item.id = part.tag;
  item.family = part.definition->family;
  item.tier = tier_of(part);
  item.branch = part.circuit_number;
  item.group = group_of(parts, part.assembly);
  item.poses = symbols::poses_of(source.figures);
  item.prime_mover = part.definition->role("prime-mover") != nullptr;
  item.trough = source.figures.front().trough;
  item.on_cover = is_beside(*part.definition, "on-cover");
  item.in_trough = is_beside(*part.definition, "in-trough");
  item.hints = part.definition->beside;
  add_designation(parts, item, source, part);
  add_operators(parts, item, source);
  add_port_letters(parts, item, source);
  parts.item_of_part[id.index] = add(parts, std::move(item), std::move(source));
}

// What a flag of a reservoir names and the library can draw on the cover (a filler-breather) is drawn there, without a tag.
void add_cover_fittings(SketchParts& parts, int host) {
  const Part& part = parts.circuit.parts[parts.sketch.items[at(host)].part];
  for (const FactValue& fact : part.facts) {
    if (fact.kind != FactKind::flag) continue;
    const Definition* fitting = parts.library.definition(fact.name);
    if (fitting == nullptr || !is_beside(*fitting, "on-cover") || fitting->symbols.empty()) continue;
    const Symbol* symbol = parts.library.symbol(fitting->symbols.back().symbol);
    if (symbol == nullptr) continue;
    SketchItem source{{}, symbol->name, part.tag + " " + fitting->term, part.tag, {symbols::figure_of(parts.library, *symbol)}, {}, {}, {}};
    layout::Item item;
    item.id = part.tag + ":" + fact.name;
    item.family = fitting->family;
    item.tier = Tier::supply;
    item.branch = parts.sketch.problem.items[at(host)].branch;
    item.poses = symbols::poses_of(source.figures);
    item.on_cover = true;
    item.host = host;
    add(parts, std::move(item), std::move(source));
  }
}

// The load of a rod: a mass when the part states one, else the force as words beside the rod.
void add_load(SketchParts& parts, int actuator) {
  constexpr std::string_view load_symbol = "load-mass";
  const PartId id = parts.sketch.items[at(actuator)].part;
  const std::string caption = load_caption(parts.circuit, id);
  if (caption.empty() || mechanical_pin(parts.sketch, actuator, Side::right) < 0) return;
  const Part& part = parts.circuit.parts[id];
  const Symbol* symbol = parts.library.symbol(load_symbol);
  if (symbol == nullptr || !(part.has("mass") || part.has("load"))) {
    add_text(parts, parts.sketch.problem.items[at(actuator)], TextBlock::Kind::load, "load", {caption}, "setting");
    return;
  }
  SketchItem source{{}, symbol->name, "load of " + part.tag, part.tag, {symbols::figure_of(parts.library, *symbol)}, {}, {}, {}};
  layout::Item item;
  item.id = part.tag + ":load";
  item.family = "load";
  item.tier = Tier::actuator;
  item.branch = parts.sketch.problem.items[at(actuator)].branch;
  item.group = -1;
  item.poses = symbols::poses_of(source.figures);
  add_text(parts, item, TextBlock::Kind::load, "load", {caption}, "setting");
  parts.loads.emplace_back(actuator, add(parts, std::move(item), std::move(source)));
}

// ---------------------------------------------------------------- troughs

// Every line that ends in a reservoir is a pin of its trough; of another reservoir symbol it is the port of that name.
void add_connections(SketchParts& parts) {
  const auto& connections = parts.sketch.sources.connections;
  parts.connection_ends.assign(connections.size(), {});
  for (std::size_t i = 0; i < connections.size(); ++i) {
    const Port& port = parts.circuit.ports[connections[i].port];
    const int index = parts.item_of_part[port.part.index];
    if (index < 0) continue;
    layout::Item& item = parts.sketch.problem.items[at(index)];
    if (!item.trough) {
      const int named = pin_named(item, port.name);
      parts.connection_ends[i] = {index, named >= 0 ? named : 0};
      continue;
    }
    auto& names = parts.sketch.items[at(index)].connections;
    std::string name = port.name.empty() ? "1" : port.name;
    for (int next = 2; std::find(names.begin(), names.end(), name) != names.end(); ++next) name = fmt::format("{}.{}", port.name, next);
    for (layout::Pose& pose : item.poses) pose.pins.push_back({name, {}, Side::above, PortUse::main});
    names.push_back(name);
    parts.sketch.items[at(index)].connection_use.push_back(PortUse::main);
    parts.connection_ends[i] = {index, static_cast<int>(names.size()) - 1};
  }
  for (const CircuitNet& net : parts.sketch.sources.nets)
    for (const NetEnd& end : net.ends) {
      if (end.connection < 0) continue;
      const layout::End pin = parts.connection_ends[at(end.connection)];
      if (pin.item < 0 || !parts.sketch.problem.items[at(pin.item)].trough) continue;
      if (net.function == LineFunction::drain) parts.sketch.items[at(pin.item)].connection_use[at(pin.pin)] = PortUse::drain;
    }
}

// A strainer stands in the trough when it is joined to it without a line between.
bool stands_in(const SketchParts& parts, int item, int trough) {
  for (const CircuitNet& net : parts.sketch.sources.nets) {
    bool here = false, oil = false;
    for (const NetEnd& end : net.ends) {
      if (end.connection >= 0) oil = oil || parts.connection_ends[at(end.connection)].item == trough;
      else here = here || parts.item_of_part[parts.circuit.ports[end.port].part.index] == item;
    }
    if (here && oil && net.ends.size() == 2 && net.lines.empty()) return true;
  }
  return false;
}

// What watches the way of a rod stands beside the actuator that one of its facts names.
void find_watched(SketchParts& parts) {
  for (std::size_t i = 0; i < parts.sketch.items.size(); ++i) {
    const PartId id = parts.sketch.items[i].part;
    if (!id || !is_beside(*parts.circuit.parts[id].definition, "at-rod")) continue;
    for (const FactValue& fact : parts.circuit.parts[id].facts) {
      const PartId watched = fact.kind == FactKind::tag ? parts.circuit.part_named(fact.word) : PartId{};
      const int item = watched ? parts.item_of_part[watched.index] : -1;
      if (item >= 0 && parts.sketch.problem.items[at(item)].tier == Tier::actuator) parts.sketch.problem.items[i].beside = item;
    }
  }
}

void find_hosts(SketchParts& parts) {
  const int trough = first_trough(parts.sketch);
  for (std::size_t i = 0; i < parts.sketch.problem.items.size(); ++i) {
    layout::Item& item = parts.sketch.problem.items[i];
    if (item.host >= 0) continue;
    item.on_cover = item.on_cover && trough >= 0;
    item.in_trough = item.in_trough && trough >= 0 && stands_in(parts, static_cast<int>(i), trough);
    if (!item.on_cover && !item.in_trough) continue;
    item.host = trough;
    if (item.in_trough) parts.sketch.items[at(trough)].inside.push_back(static_cast<int>(i));
  }
}

}  // namespace

void SketchParts::measure(int& width, int& height, const std::vector<std::string>& rows) const {
  double widest = 0;
  for (const std::string& row : rows) widest = std::max(widest, canvas::measured(row, capital_mm).width);
  width = static_cast<int>(std::ceil(widest / (module_mm / 2) - 1e-6));
  height = row_pitch * static_cast<int>(rows.size());
}

int pin_named(const layout::Item& item, std::string_view name) {
  const auto& pins = item.poses.front().pins;
  for (std::size_t i = 0; i < pins.size(); ++i)
    if (pins[i].name == name) return static_cast<int>(i);
  return -1;
}

std::string pin_name(const Sketch& sketch, layout::End end) { return sketch.problem.items[at(end.item)].poses.front().pins[at(end.pin)].name; }

int mechanical_pin(const Sketch& sketch, int item, Side preferred) {
  int found = -1;
  const auto& pins = sketch.problem.items[at(item)].poses.front().pins;
  for (std::size_t i = 0; i < pins.size(); ++i) {
    if (pins[i].use != PortUse::mechanical) continue;
    if (found < 0 || pins[i].side == preferred) found = static_cast<int>(i);
  }
  return found;
}

int through_shaft(Sketch& sketch, int item) {
  const int first = mechanical_pin(sketch, item, Side::right);
  if (first < 0) return -1;
  SketchItem& source = sketch.items[at(item)];
  const std::string name = "through";
  if (const int known = pin_named(sketch.problem.items[at(item)], name); known >= 0) return known;
  for (symbols::Figure& figure : source.figures) {
    const double body = symbols::extent_of(figure.strokes).left, end = body - 2;
    for (const double y : {-0.5, 0.5}) figure.strokes.push_back(symbols::stroke(StrokeKind::line, {end, y, body, y}));
    figure.ports.push_back({name, end, 0, Side::left, PortUse::mechanical});
  }
  sketch.problem.items[at(item)].poses = symbols::poses_of(source.figures);
  return pin_named(sketch.problem.items[at(item)], name);
}

void add_items(SketchParts& parts) {
  parts.item_of_part.assign(parts.circuit.parts.size(), -1);
  for (std::uint32_t i = 0; i < parts.circuit.parts.size(); ++i) add_part(parts, {i});
  add_connections(parts);
  find_hosts(parts);
  find_watched(parts);
  const int drawn = static_cast<int>(parts.sketch.items.size());
  for (int i = 0; i < drawn; ++i) {
    if (parts.sketch.problem.items[at(i)].trough) add_cover_fittings(parts, i);
    if (parts.sketch.problem.items[at(i)].tier == Tier::actuator) add_load(parts, i);
  }
}

}  // namespace ferrule
