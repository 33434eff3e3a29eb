// What a geometry file shows to one who knows nothing of how it came to be: symbols, ports, strokes, dots.
//
// The reader of this folder shares no code with what lays out, routes and writes a drawing: it sees the emitted text only.
#pragma once

#include <compare>
#include <string>
#include <string_view>
#include <vector>

namespace ferrule::readback {

// Hundredths of a millimetre from the top left corner of the sheet; what lies within 0.02 mm is one point.
struct Point {
  long x = 0, y = 0;
  auto operator<=>(const Point&) const = default;
};

struct Port {
  std::string component, name;       // what it is a port of; of a part inside a symbol, that part
  Point at;
  bool shaft = false;                // for a shaft or a rod, not for oil
};

struct Symbol {
  std::string id, kind;
  std::string stands_for;            // the component that a reservoir mark, a breather or a load belongs to; else empty
  std::vector<std::string> parts;    // components drawn inside it
  std::vector<Port> ports;
};

// A mark where a line goes on on another sheet.
struct Reference {
  std::string symbol, name;          // the mark; the letters in it: "P"
  std::string partner_sheet, partner_symbol;
};

// A line as it is drawn. Ink bears no names: `net` only helps to say where two nets meet.
struct Stroke {
  std::vector<Point> points;
  bool shaft = false;                // drawn double: turns or pushes, carries no oil
  std::string net;
};

struct Sheet {
  std::string id;
  double width = 0, height = 0;      // mm
  std::vector<Symbol> symbols;
  std::vector<Stroke> strokes;
  std::vector<Point> dots;
  std::vector<Reference> references;
};

struct Geometry {
  std::vector<Sheet> sheets;
  std::string fault;                 // why the text could not be read, with the place; empty when it was
};

// Reads a text of the form `schematic-geometry`, version 1 (render/geometry.schema.json). Never throws.
Geometry geometry_in(std::string_view json);

}  // namespace ferrule::readback
