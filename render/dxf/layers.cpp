#include "render/dxf/layers.hpp"

#include "render/drawn_inks.hpp"

namespace ferrule::dxf {
namespace {

constexpr std::string_view frame = "FRAME", enclosure = "ENCLOSURE", symbol = "SYMBOL", text = "TEXT";
constexpr std::string_view by_kind[] = {"PRESSURE", "WORKING", "RETURN", "SUCTION", "DRAIN", "PILOT", "SHAFT"};

void add(std::vector<Layered>& all, std::string_view layer, const sheet::Inks& inks) {
  for (const sheet::Ink& ink : inks) all.push_back({layer, ink});
}

}  // namespace

const std::vector<Layer>& layers() {
  static const std::vector<Layer> all{{frame, 8},      {enclosure, 8},  {symbol, 7},     {text, 7},       {by_kind[0], 1}, {by_kind[1], 30},
                                      {by_kind[2], 5}, {by_kind[3], 4}, {by_kind[4], 3}, {by_kind[5], 6}, {by_kind[6], 7}};
  return all;
}

std::vector<Layered> layered(const DrawnSheet& page, const Drawing& drawing) {
  std::vector<Layered> all;
  add(all, frame, page.furniture);
  for (const DrawnGroup& group : page.groups) add(all, enclosure, inks_of(group, drawing));
  for (const DrawnSymbol& drawn : page.symbols) add(all, symbol, drawn.inks);
  for (const DrawnNet& net : page.nets) {
    for (const DrawnPath& path : net.paths) add(all, by_kind[static_cast<int>(path.look)], inks_of(path, drawing));
    for (const auto& dot : net.junctions) add(all, by_kind[static_cast<int>(net.kind)], {dot_at(dot, drawing)});
  }
  for (const DrawnLabel& label : page.labels) add(all, text, inks_of(label, drawing));
  return all;
}

}  // namespace ferrule::dxf
