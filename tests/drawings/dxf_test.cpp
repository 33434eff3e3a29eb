// The DXF of a sheet: every line on the layer of its kind from port to port, every text, in the format other programs read.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "drawings/drawn.hpp"
#include "drawings/dxf_reader.hpp"
#include "support/files.hpp"
#include "support/generator.hpp"

using dxf_reader::Entity, dxf_reader::Point;
using Json = nlohmann::json;

namespace {

struct Sheet {
  dxf_reader::File file;
  Json geometry;                 // of the same sheet, y down
};

std::vector<Sheet> sheets_of(const ferrule::Drawing& drawing) {
  std::vector<Sheet> sheets;
  const Json geometry = Json::parse(geometry_json(drawing));
  for (const ferrule::DrawnFile& file : files_of(drawing, ".dxf")) sheets.push_back({dxf_reader::read(file.bytes), geometry["sheets"][sheets.size()]});
  return sheets;
}

std::size_t count(const dxf_reader::File& file, const std::string& layer, const std::string& kind = "") {
  return static_cast<std::size_t>(std::count_if(file.entities.begin(), file.entities.end(), [&](const Entity& e) { return e.layer == layer && (kind.empty() || e.kind == kind); }));
}

bool same(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y) < 0.002; }

// The layer of a path by the words of the geometry.
std::string layer_of(const Json& net, std::size_t path) {
  static const std::map<std::string, std::string> names{{"pressure", "PRESSURE"}, {"work", "WORKING"}, {"return", "RETURN"}, {"suction", "SUCTION"}, {"drain", "DRAIN"}, {"pilot", "PILOT"}, {"shaft", "SHAFT"}};
  const auto listed = [&](const char* key) { return net.contains(key) && std::find(net[key].begin(), net[key].end(), path) != net[key].end(); };
  return listed("pilot_paths") ? "PILOT" : listed("drain_paths") ? "DRAIN" : names.at(net["kind"]);
}

std::vector<Point> points_of(const Json& path, double height) {
  std::vector<Point> points;
  for (const Json& p : path) points.push_back({p[0], height - p[1].get<double>()});
  return points;
}

bool is_open_line(const Entity& e) { return (e.kind == "LINE" || e.kind == "POLYLINE") && !e.closed; }

// Every path of the geometry is one line of the file on its layer, and there are no others.
void check_lines(const Sheet& sheet) {
  const double height = sheet.geometry["height"];
  std::map<std::string, std::size_t> paths;
  for (const Json& net : sheet.geometry["nets"])
    for (std::size_t p = 0; p < net["paths"].size(); ++p) {
      const std::string layer = layer_of(net, p);
      ++paths[layer];
      if (layer == "SHAFT") continue;  // two lines beside the path
      const std::vector<Point> points = points_of(net["paths"][p], height);
      CHECK(std::any_of(sheet.file.entities.begin(), sheet.file.entities.end(), [&](const Entity& e) {
        return e.layer == layer && is_open_line(e) && e.points.size() == points.size() && std::equal(points.begin(), points.end(), e.points.begin(), same);
      }));
    }
  for (const char* layer : {"PRESSURE", "WORKING", "RETURN", "SUCTION", "DRAIN", "PILOT"}) {
    INFO(layer);
    CHECK(static_cast<std::size_t>(std::count_if(sheet.file.entities.begin(), sheet.file.entities.end(), [&](const Entity& e) { return e.layer == layer && is_open_line(e); })) == paths[layer]);
  }
}

// Both ends of every line stand on a port or on a joint of its net.
void check_ends(const Sheet& sheet) {
  const double height = sheet.geometry["height"];
  std::vector<Point> places;
  for (const Json& symbol : sheet.geometry["symbols"])
    for (const Json& port : symbol["ports"]) places.push_back({port["x"], height - port["y"].get<double>()});
  for (const Json& net : sheet.geometry["nets"])
    for (const Json& dot : net["junctions"]) places.push_back({dot[0], height - dot[1].get<double>()});
  for (const Entity& e : sheet.file.entities) {
    if (!is_open_line(e) || e.layer == "FRAME" || e.layer == "SYMBOL" || e.layer == "TEXT" || e.layer == "SHAFT" || e.layer == "ENCLOSURE") continue;
    for (const Point& end : {e.points.front(), e.points.back()})
      CHECK(std::any_of(places.begin(), places.end(), [&](Point place) { return same(place, end); }));
  }
}

void check(const Sheet& sheet) {
  CHECK(sheet.file.faults == std::vector<std::string>{});
  CHECK(sheet.file.version == "AC1009");
  for (const Entity& e : sheet.file.entities) {
    CHECK(sheet.file.layers.contains(e.layer));
    if (!e.line_type.empty()) CHECK(sheet.file.line_types.contains(e.line_type));
    for (const Point& p : e.points) CHECK((p.x >= 0 && p.x <= sheet.geometry["width"] && p.y >= 0 && p.y <= sheet.geometry["height"]));
  }
  CHECK(count(sheet.file, "TEXT", "TEXT") == sheet.geometry["labels"].size());
  check_lines(sheet);
  check_ends(sheet);
}

// Pump, relief valve and reservoir: one line of each kind, drawn by hand they are three.
const std::string tiny = R"(
reservoir      0Z1 { volume 63 L }
electric-motor 0M1 { power 4 kW, speed 1450 rpm }
fixed-pump     0P1 { displacement 16 cm3/rev, driven-by 0M1 }
relief-valve   0V1 { setting 100 bar }
suction  0Z1 -- 0P1.S
pressure 0P1.P -- 0V1.P
return   0V1.T -- 0Z1
)";

}  // namespace

TEST_CASE("three lines of three kinds stand on three layers") {
  const Sheet sheet = sheets_of(drawn::text(tiny)).front();
  check(sheet);
  for (const char* layer : {"SUCTION", "PRESSURE", "RETURN"}) CHECK(count(sheet.file, layer) == 1);
  for (const char* layer : {"WORKING", "DRAIN", "PILOT", "ENCLOSURE"}) CHECK(count(sheet.file, layer) == 0);
  CHECK(count(sheet.file, "SHAFT", "LINE") == 2);
  CHECK(count(sheet.file, "SYMBOL", "CIRCLE") >= 2);   // pump and motor
}

TEST_CASE("the DXF of every sample and of generated circuits says what their geometry says") {
  for (const std::string& path : ferrule::tests::files_below("samples", ".fer")) {
    INFO(path);
    for (const Sheet& sheet : sheets_of(drawn::file(path))) check(sheet);
  }
  for (std::uint32_t seed = 1; seed <= 10; ++seed)
    for (const Sheet& sheet : sheets_of(drawn::text(ferrule::tests::generated_circuit(40, seed)))) check(sheet);
}

TEST_CASE("pilot lines and drains have line types of their own") {
  const Sheet sheet = sheets_of(drawn::file("samples/boat-winch.fer")).front();
  int dashed = 0;
  for (const Entity& e : sheet.file.entities) {
    if (!is_open_line(e) || (e.layer != "PILOT" && e.layer != "DRAIN")) continue;
    CHECK(e.line_type == e.layer);
    ++dashed;
  }
  CHECK(dashed > 0);
}

TEST_CASE("texts stand where they stand on the sheet, turned and aligned, in letters every reader knows") {
  const ferrule::Drawing drawing = drawn::text("circuit \"ö \\\\U+0041 100%%d x\" { \"\" }\n" + tiny);
  const std::string bytes = files_of(drawing, ".dxf").front().bytes;
  const dxf_reader::File file = dxf_reader::read(bytes);
  CHECK(file.faults.empty());
  const auto texts = [&](const std::string& text) { return std::count_if(file.entities.begin(), file.entities.end(), [&](const Entity& e) { return e.text == text; }); };
  CHECK(texts("\\U+00F6 \\U+005CU+0041 100%\\U+0025d x") == 1);   // a name does not act
  CHECK(texts("16 cm\\U+00B3/r") == 1);
  const ferrule::DrawnSheet& page = drawing.sheets.front();
  for (const ferrule::DrawnLabel& label : page.labels) {
    const auto found = std::find_if(file.entities.begin(), file.entities.end(), [&](const Entity& e) {
      return e.kind == "TEXT" && same(e.points.at(0), {label.baseline.x, page.format.height - label.baseline.y});
    });
    REQUIRE(found != file.entities.end());
    CHECK(found->size == Approx(drawing.capital_mm));
    CHECK(found->turned == (label.turned ? 90 : 0));
  }
}

TEST_CASE("sheets of a set are files of their own; the same text gives the same bytes") {
  const auto one = files_of(drawn::file("samples/tile-line.fer"), ".dxf"), two = files_of(drawn::file("samples/tile-line.fer"), ".dxf");
  REQUIRE(one.size() == 8);
  for (std::size_t i = 0; i < one.size(); ++i) {
    CHECK(one[i].sheet == std::to_string(i + 1));
    CHECK((one[i].bytes == two[i].bytes));
  }
}
