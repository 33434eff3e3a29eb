#include "render/dxf/dxf.hpp"

#include <fmt/format.h>

#include "render/canvas/dashes.hpp"
#include "render/dxf/entities.hpp"
#include "render/dxf/layers.hpp"

namespace ferrule {
namespace {

using dxf::group;

std::string section(std::string_view name, const std::string& body) {
  return group(0, "SECTION") + group(2, name) + body + group(0, "ENDSEC");
}

std::string corner(std::string_view variable, double x, double y) { return group(9, variable) + group(10, x) + group(20, y); }

std::string header(const DrawnSheet& page) {
  const double width = page.format.width, height = page.format.height;
  return section("HEADER", group(9, "$ACADVER") + group(1, "AC1009") + corner("$EXTMIN", 0, 0) + corner("$EXTMAX", width, height) +
                               corner("$LIMMIN", 0, 0) + corner("$LIMMAX", width, height) + group(9, "$LTSCALE") + group(40, 1.0));
}

std::string table(std::string_view name, std::size_t count, const std::string& rows) {
  return group(0, "TABLE") + group(2, name) + group(70, static_cast<int>(count)) + rows + group(0, "ENDTAB");
}

std::string line_type(std::string_view name, const std::vector<double>& pieces) {
  double length = 0;
  std::string rows;
  for (const double piece : pieces) length += std::abs(piece), rows += group(49, piece);
  return group(0, "LTYPE") + group(2, name) + group(70, 0) + group(3, "") + group(72, 65) + group(73, static_cast<int>(pieces.size())) + group(40, length) + rows;
}

// Dashes count up, gaps down.
std::vector<double> pieces_of(sheet::Pattern pattern, double width) {
  const canvas::Rhythm rhythm = canvas::rhythm_of(pattern);
  std::vector<double> pieces{rhythm.dash * width, -rhythm.gap * width};
  if (rhythm.dotted) pieces.insert(pieces.end(), {width, -rhythm.gap * width});
  return pieces;
}

std::string line_type_table(double width) {
  std::string rows = line_type("CONTINUOUS", {});
  for (const dxf::LineType& type : dxf::line_types) rows += line_type(type.name, pieces_of(type.pattern, width));
  return table("LTYPE", dxf::line_types.size() + 1, rows);
}

std::string layer_table() {
  const auto row = [](std::string_view name, int colour) {
    return group(0, "LAYER") + group(2, name) + group(70, 0) + group(62, colour) + group(6, "CONTINUOUS");
  };
  std::string rows = row("0", 7);
  for (const dxf::Layer& layer : dxf::layers()) rows += row(layer.name, layer.colour);
  return table("LAYER", dxf::layers().size() + 1, rows);
}

// The face of the printed sheet where it is installed; readers take their own where it is not.
std::string style_table() {
  return table("STYLE", 1, group(0, "STYLE") + group(2, dxf::lettering) + group(70, 0) + group(40, 0.0) + group(41, 1.0) + group(50, 0.0) + group(71, 0) +
                               group(42, 2.5) + group(3, "osifont.ttf") + group(4, ""));
}

}  // namespace

std::string dxf_of(const DrawnSheet& page, const Drawing& drawing) {
  std::string entities;
  for (const auto& [layer, ink] : dxf::layered(page, drawing)) entities += dxf::entity(ink, layer, page.format.height);
  return group(999, dxf::text_value(fmt::format("{}, sheet {}, lengths in mm", drawing.title, page.id))) + header(page) +
         section("TABLES", line_type_table(drawing.line_mm) + layer_table() + style_table()) + section("ENTITIES", entities) + group(0, "EOF");
}

}  // namespace ferrule
