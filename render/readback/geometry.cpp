#include "render/readback/geometry.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

namespace ferrule::readback {
namespace {

using Json = nlohmann::json;

// What is wrong with the file, and where.
struct Unreadable {
  std::string why;
};

// A value with the way to it, for messages: `sheets[0].symbols[3]`.
struct Place {
  const Json& value;
  std::string way;
};

Place in(const Place& object, const char* key) {
  if (!object.value.is_object()) throw Unreadable{object.way + " is not an object"};
  const auto found = object.value.find(key);
  if (found == object.value.end()) throw Unreadable{fmt::format("{} lacks \"{}\"", object.way, key)};
  return {*found, object.way + "." + key};
}

std::string text(const Place& place) {
  if (!place.value.is_string()) throw Unreadable{place.way + " is not a text"};
  return place.value;
}

// No sheet is a kilometre wide; what is beyond has lost its meaning as an integer.
double number(const Place& place) {
  constexpr double most = 1e6;
  if (!place.value.is_number()) throw Unreadable{place.way + " is not a number"};
  const double value = place.value;
  if (!(std::fabs(value) <= most)) throw Unreadable{place.way + " is no length on a sheet"};
  return value;
}

std::string text_or_nothing(const Place& object, const char* key) {
  return object.value.contains(key) ? text(in(object, key)) : std::string();
}

template <class Read>
void each(const Place& list, Read read) {
  if (!list.value.is_array()) throw Unreadable{list.way + " is not a list"};
  for (std::size_t i = 0; i < list.value.size(); ++i) read(Place{list.value[i], fmt::format("{}[{}]", list.way, i)});
}

long hundredths(double mm) { return std::lround(mm * 50) * 2; }

Point point(const Place& pair) {
  if (!pair.value.is_array() || pair.value.size() != 2) throw Unreadable{pair.way + " is not a point [x, y]"};
  return {hundredths(number({pair.value[0], pair.way + "[0]"})), hundredths(number({pair.value[1], pair.way + "[1]"}))};
}

Port port(const Place& place, const std::string& symbol) {
  Port port{symbol, text(in(place, "id")), {hundredths(number(in(place, "x"))), hundredths(number(in(place, "y")))}, text_or_nothing(place, "use") == "shaft"};
  if (!place.value.contains("of")) return port;
  port.component = text(in(in(place, "of"), "symbol"));
  port.name = text(in(in(place, "of"), "port"));
  return port;
}

Symbol symbol(const Place& place) {
  Symbol symbol{text(in(place, "id")), text(in(place, "kind")), text_or_nothing(place, "stands_for"), {}, {}};
  if (place.value.contains("parts")) each(in(place, "parts"), [&](const Place& part) { symbol.parts.push_back(text(part)); });
  each(in(place, "ports"), [&](const Place& at) { symbol.ports.push_back(port(at, symbol.id)); });
  return symbol;
}

void read_net(const Place& place, Sheet& sheet) {
  const std::string net = text(in(place, "id"));
  const bool shaft = text(in(place, "kind")) == "shaft";
  each(in(place, "paths"), [&](const Place& path) {
    Stroke stroke{{}, shaft, net};
    each(path, [&](const Place& pair) { stroke.points.push_back(point(pair)); });
    sheet.strokes.push_back(std::move(stroke));
  });
  each(in(place, "junctions"), [&](const Place& pair) { sheet.dots.push_back(point(pair)); });
}

Reference reference(const Place& place) {
  const Place partner = in(place, "partner");
  return {text(in(place, "symbol")), text(in(place, "name")), text(in(partner, "sheet")), text(in(partner, "symbol"))};
}

Sheet sheet(const Place& place) {
  Sheet sheet{text(in(place, "id")), number(in(place, "width")), number(in(place, "height")), {}, {}, {}, {}};
  each(in(place, "symbols"), [&](const Place& at) { sheet.symbols.push_back(symbol(at)); });
  each(in(place, "nets"), [&](const Place& at) { read_net(at, sheet); });
  if (place.value.contains("references")) each(in(place, "references"), [&](const Place& at) { sheet.references.push_back(reference(at)); });
  return sheet;
}

}  // namespace

Geometry geometry_in(std::string_view json) {
  const Json file = Json::parse(json, nullptr, false);
  if (file.is_discarded()) return {{}, "it is not JSON"};
  Geometry geometry;
  try {
    const Place whole{file, "the file"};
    if (text(in(whole, "format")) != "schematic-geometry" || number(in(whole, "version")) != 1)
      throw Unreadable{"it does not say that it is a schematic-geometry of version 1"};
    each({in(whole, "sheets").value, "sheets"}, [&](const Place& at) { geometry.sheets.push_back(sheet(at)); });
  } catch (const Unreadable& unreadable) {
    return {{}, unreadable.why};
  }
  return geometry;
}

}  // namespace ferrule::readback
