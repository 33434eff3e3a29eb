// Boxes of directional valves drawn from their flow paths equal the reviewed strokes (form of ISO 1219-1).
#include <catch2/catch.hpp>

#include "drawings/symbols_reference.hpp"
#include "render/symbols/box.hpp"

using namespace ferrule;
using namespace ferrule::symbols_test;

namespace {

// One row that names every port, so that a closed box knows them too.
symbols::BoxPorts box_with(const nlohmann::json& ports) {
  PositionRow row;
  row.paths.push_back({});
  for (const auto& [name, at] : ports.items()) row.paths.back().ports.push_back(name);
  return symbols::box_ports({row});
}

PositionRow row_of(const std::string& paths) { return {"a", paths_of(paths), {}, {}, false}; }

}  // namespace

TEST_CASE("the ports of a box stand where the standard puts them") {
  for (const auto& [name, box] : reference()["boxes"].items()) {
    const symbols::BoxPorts found = box_with(box["ports"]);
    for (const auto& [port, at] : box["ports"].items()) {
      INFO(name << " port " << port);
      REQUIRE(found.find(port));
      CHECK(found.find(port)->x == at[0].get<double>());
      CHECK(found.find(port)->y == at[1].get<double>());
    }
  }
}

TEST_CASE("a box drawn from its paths equals the reviewed strokes") {
  REQUIRE(reference()["boxes"].size() == 45);
  for (const auto& [name, box] : reference()["boxes"].items()) {
    INFO(name);
    const auto drawn = symbols::box_strokes(box_with(box["ports"]), paths_of(box["paths"]));
    CHECK(spelled(drawn) == spelled(strokes_of(box["strokes"])));
  }
}

TEST_CASE("ports with numbers: the common one stands alone above") {
  const symbols::BoxPorts box = symbols::box_ports({row_of("1-2"), row_of("1-3")});
  CHECK(box.find("1")->y == 0);
  CHECK(box.find("2")->y == box.height);
  CHECK(box.find("3")->y == box.height);
}

TEST_CASE("any set of port names finds a place of its own on whole modules") {
  const symbols::BoxPorts box = symbols::box_ports({row_of("P>A B>T E>F G>H"), row_of("X-Y-Z")});
  std::set<std::pair<double, double>> places;
  for (const auto& port : box.ports) {
    CHECK(port.x == std::round(port.x));
    CHECK(places.insert({port.x, port.y}).second);
  }
  CHECK(box.ports.size() == 11);
}
