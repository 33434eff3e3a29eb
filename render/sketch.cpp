#include "render/sketch.hpp"

#include <algorithm>
#include <tuple>

#include "render/sketch_hints.hpp"
#include "render/sketch_parts.hpp"

namespace ferrule {
namespace {

using layout::NetKind;

constexpr std::string_view shaft_fact = "driven-by";

NetKind kind_of(LineFunction function) {
  switch (function) {
    case LineFunction::pressure: return NetKind::pressure;
    case LineFunction::working: return NetKind::working;
    case LineFunction::return_: return NetKind::return_;
    case LineFunction::suction: return NetKind::suction;
    case LineFunction::drain: return NetKind::drain;
    case LineFunction::pilot: return NetKind::pilot;
    case LineFunction::mechanical: return NetKind::mechanical;
  }
  return NetKind::working;
}

// ---------------------------------------------------------------- nets

// The pin of an end of a net; item -1 when it is not drawn.
layout::End pin_of(const Circuit& circuit, const SketchParts& parts, const NetEnd& end) {
  if (end.connection >= 0) return parts.connection_ends[static_cast<std::size_t>(end.connection)];
  const Port& port = circuit.ports[end.port];
  const int item = parts.item_of_part[port.part.index];
  return {item, item < 0 ? -1 : pin_named(parts.sketch.problem.items[static_cast<std::size_t>(item)], port.name)};
}

// A strainer in the trough has no line between itself and the oil it stands in.
bool only_in_trough(const Sketch& sketch, const layout::Net& net) {
  return std::all_of(net.ends.begin(), net.ends.end(), [&](const layout::End& end) {
    const layout::Item& item = sketch.problem.items[static_cast<std::size_t>(end.item)];
    return item.trough || item.in_trough;
  });
}

void add_line_texts(const Circuit& circuit, SketchParts& parts, const CircuitNet& source, const std::vector<int>& pin_index, layout::Net& net,
                    const std::string& net_id) {
  for (const NetLine& line : source.lines) {
    const Line& drawn = circuit.lines[line.line];
    const std::string caption = line_caption(circuit.parts[drawn.part], drawn.named);
    if (caption.empty() || line.near.empty()) continue;
    layout::LineText text{"line:" + circuit.parts[drawn.part].tag, 0, 0, {}};
    for (const std::size_t end : line.near)
      if (pin_index[end] >= 0) text.near.push_back(net.ends[static_cast<std::size_t>(pin_index[end])]);
    if (text.near.empty() || text.near.size() >= net.ends.size()) continue;
    if (parts.sketch.texts.contains(text.id)) text.id += "#" + std::to_string(line.line.index);
    parts.measure(text.width, text.height, {caption});
    parts.sketch.texts[text.id] = {net_id, "line", "", {caption}};
    net.texts.push_back(std::move(text));
  }
}

// The port of the part that is declared first: further runs, wherever they stand, do not rename the net. Places in a trough are
// numbered through and say less.
std::string name_of(const Sketch& sketch, const layout::Net& net) {
  const auto item = [&](const layout::End& end) -> const layout::Item& { return sketch.problem.items[static_cast<std::size_t>(end.item)]; };
  const auto rank = [&](const layout::End& end) { return std::tuple(item(end).trough, end.item, end.pin); };
  const layout::End& end = *std::min_element(net.ends.begin(), net.ends.end(), [&](const layout::End& a, const layout::End& b) { return rank(a) < rank(b); });
  return item(end).id + "." + pin_name(sketch, end);
}

void add_net(const Circuit& circuit, SketchParts& parts, std::size_t index) {
  const CircuitNet& source = parts.sketch.sources.nets[index];
  layout::Net net;
  net.kind = kind_of(source.function);
  std::vector<int> pin_index;
  const bool main = source.function != LineFunction::pilot && source.function != LineFunction::drain;
  for (const NetEnd& end : source.ends) {
    const layout::End pin = pin_of(circuit, parts, end);
    pin_index.push_back(pin.item < 0 || pin.pin < 0 ? -1 : static_cast<int>(net.ends.size()));
    if (pin_index.back() < 0) continue;
    net.ends.push_back(pin);
    if (main && end.said == LineFunction::pilot) net.pilot_ends.push_back(pin);
    if (main && end.said == LineFunction::drain) net.drain_ends.push_back(pin);
  }
  if (net.ends.size() < 2 || only_in_trough(parts.sketch, net)) return;
  net.id = name_of(parts.sketch, net);
  add_line_texts(circuit, parts, source, pin_index, net, net.id);
  parts.sketch.nets.push_back({static_cast<int>(index), net.id});
  parts.sketch.problem.nets.push_back(std::move(net));
}

void add_mechanical(SketchParts& parts, layout::End from, layout::End to) {
  if (from.item < 0 || to.item < 0 || from.pin < 0 || to.pin < 0) return;
  layout::Net net;
  net.kind = NetKind::mechanical;
  net.id = "shaft:" + parts.sketch.problem.items[static_cast<std::size_t>(from.item)].id;
  net.ends = {from, to};
  parts.sketch.nets.push_back({-1, net.id});
  parts.sketch.problem.nets.push_back(std::move(net));
}

// Drive and pump by the fact that names the drive. Further pumps of one drive hang on the through shaft of the one before.
void add_shafts(const Circuit& circuit, SketchParts& parts) {
  std::map<int, int> last;  // by drive item: the item whose free shaft is next
  for (std::uint32_t i = 0; i < circuit.parts.size(); ++i) {
    const FactValue* drive = circuit.parts.rows[i].fact(shaft_fact);
    const int driven = parts.item_of_part[i];
    if (drive == nullptr || driven < 0) continue;
    const PartId motor = circuit.part_named(drive->word);
    const int driver = motor ? parts.item_of_part[motor.index] : -1;
    if (driver < 0) continue;
    const auto [before, first] = last.try_emplace(driver, driver);
    const int pin = first ? mechanical_pin(parts.sketch, driver, Side::left) : through_shaft(parts.sketch, before->second);
    add_mechanical(parts, {driven, mechanical_pin(parts.sketch, driven, Side::right)}, {before->second, pin});
    before->second = driven;
  }
}

void add_rods(SketchParts& parts) {
  for (const auto& [actuator, load] : parts.loads)
    add_mechanical(parts, {actuator, mechanical_pin(parts.sketch, actuator, Side::right)}, {load, mechanical_pin(parts.sketch, load, Side::left)});
}

}  // namespace

Sketch sketched(const Circuit& circuit, Library& library, double module_mm, double capital_mm, const StateView* view) {
  Sketch sketch;
  sketch.sources = nets_of(circuit);
  SketchParts parts{circuit, library, sketch, module_mm, capital_mm, view, {}, {}, {}, {}};
  add_items(parts);
  for (std::size_t i = 0; i < sketch.sources.nets.size(); ++i) add_net(circuit, parts, i);
  add_shafts(circuit, parts);
  add_rods(parts);
  add_hints(circuit, parts);
  return sketch;
}

}  // namespace ferrule
