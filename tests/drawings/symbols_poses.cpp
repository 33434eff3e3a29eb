// The ways a component may stand on the sheet (ISO 1219-1 lets symbols be turned and mirrored; where we do not, it is practice:
// a cylinder lies, a valve keeps A left of B, letters and what stands in a reservoir stay upright).
#include <catch2/catch.hpp>

#include <set>

#include "compiler/compile.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule {
const std::vector<Surroundings::LibraryFile>& library_text();
}

namespace ferrule::symbols {
namespace {

struct Shelf {
  Sources sources;
  Messages messages;
  Library library{sources, messages, library_text()};
  std::vector<layout::Pose> poses(const std::vector<std::string>& names) {
    std::vector<Figure> figures;
    for (const std::string& name : names) figures.push_back(figure_of(library, *library.symbol(name)));
    return poses_of(figures);
  }
};

}  // namespace

TEST_CASE("the first pose is the drawing as it is, in half modules") {
  Shelf shelf;
  const layout::Pose pose = shelf.poses({"relief-valve"}).front();
  CHECK((!pose.flip && pose.quarters == 0 && pose.variant == 0));
  CHECK(pose.centre == layout::Point{4, 4});
  REQUIRE(pose.pins.size() == 2);
  CHECK(pose.pins[0].name == "P");
  CHECK(pose.pins[0].at == layout::Point{4, -4});
  CHECK(pose.pins[0].side == Side::above);
  CHECK(pose.box.left == -2);
  CHECK(pose.box.right == 13);
}

TEST_CASE("a cylinder lies: rod right or left") {
  Shelf shelf;
  const auto poses = shelf.poses({"cylinder"});
  REQUIRE(poses.size() == 2);
  for (const layout::Pose& pose : poses) CHECK(pose.quarters == 0);
}

TEST_CASE("what stands in or on a reservoir, and what holds letters, is never turned") {
  Shelf shelf;
  for (const char* name : {"breather", "accumulator-bladder", "pressure-gauge", "pressure-switch", "tank-line-below"})
    for (const layout::Pose& pose : shelf.poses({name})) CHECK(pose.quarters == 0);
}

TEST_CASE("a check valve may stand in four ways; its mirror images look alike") {
  Shelf shelf;
  CHECK(shelf.poses({"check-valve"}).size() == 4);
}

TEST_CASE("a filter with its variant for flow downward is not turned upside down") {
  Shelf shelf;
  const auto poses = shelf.poses({"filter-bypass", "filter-bypass-down"});
  std::set<int> variants;
  for (const layout::Pose& pose : poses) {
    CHECK(pose.quarters != 2);
    variants.insert(pose.variant);
    REQUIRE(pose.pins.size() == 2);
    CHECK(pose.pins[0].name == "IN");
  }
  CHECK(variants == std::set<int>{0, 1});
}

TEST_CASE("pins lie on the grid of whole modules and never inside the box") {
  Shelf shelf;
  for (const auto& name : shelf.library.symbol_names())
    for (const layout::Pose& pose : shelf.poses({name}))
      for (const layout::Pin& pin : pose.pins) {
        INFO(name << " " << pin.name);
        CHECK(pin.at.x % 2 == 0);
        CHECK(pin.at.y % 2 == 0);
        if (pin.use == PortUse::mechanical) continue;
        const bool inside = pin.at.x > pose.box.left && pin.at.x < pose.box.right && pin.at.y > pose.box.top && pin.at.y < pose.box.bottom;
        const bool a_line = name == "hose" || name == "line-junction";  // drawn as part of a line, their dots reach beyond it
        CHECK((!inside || a_line));
      }
}

TEST_CASE("a valve row stands as drawn") {
  Shelf shelf;
  Row row;
  row.positions = shelf.library.definition("tandem-centre-valve")->rows;
  row.rest = 1;
  CHECK(poses_of({row_figure(shelf.library, row)}).size() == 1);
}

TEST_CASE("the code of a solenoid stands outside its operator") {
  Shelf shelf;
  Row row;
  row.positions = shelf.library.definition("tandem-centre-valve")->rows;
  row.rest = 1;
  row.positions[0].by.push_back({"solenoid", "1Y1", "", "", 1, {}});
  row.positions[2].by.push_back({"solenoid", "1Y2", "", "", 1, {}});
  const Figure figure = row_figure(shelf.library, row);
  REQUIRE(figure.operators.size() == 2);
  CHECK((figure.operators[0].tag == "1Y1" && figure.operators[0].left && figure.operators[0].at == Spot{-7, 3}));
  CHECK((figure.operators[1].tag == "1Y2" && !figure.operators[1].left && figure.operators[1].at == Spot{11, 3}));
}

}  // namespace ferrule::symbols
