// The symbols of the library against the reviewed catalogue, and against the rules every symbol keeps.
#include <catch2/catch.hpp>

#include <cmath>

#include "compiler/compile.hpp"
#include "drawings/symbols_reference.hpp"

namespace ferrule {
const std::vector<Surroundings::LibraryFile>& library_text();
}

namespace ferrule::symbols {

using namespace symbols_test;

namespace {

struct Shelf {
  Sources sources;
  Messages messages;
  Library library{sources, messages, library_text()};
};

Row row_of(const nlohmann::json& written) {
  Row row;
  for (const auto& position : written["positions"]) {
    PositionRow out;
    out.paths = paths_of(position["paths"]);
    for (const auto& by : position["by"]) out.by.push_back({by["means"], by["tag"], by.value("through", ""), by.value("with", ""), 1, {}});
    row.positions.push_back(std::move(out));
  }
  row.rest = written["rest"];
  for (const auto& extra : written["extra"])
    row.ports.push_back({extra[0], 0, 0, Side::below, extra[1] == "drain" ? PortUse::drain : PortUse::pilot});
  return row;
}

bool ends_at(const Stroke& stroke, Spot spot) {
  const auto near = [&](const Spot& other) { return std::hypot(other.x - spot.x, other.y - spot.y) < 1e-3; };
  const auto points = points_of(stroke);
  if (stroke.kind == StrokeKind::closed) return std::any_of(points.begin(), points.end(), near);
  return near(points.front()) || near(points.back());
}

// A shaft or rod ends with two lines 1 M apart, or the body itself lies at the port.
bool touches(const Figure& figure, const SymbolPort& port) {
  const Extent reach = extent_of(figure.strokes);
  return port.x >= reach.left - 1e-3 && port.x <= reach.right + 1e-3 && port.y >= reach.top - 1e-3 && port.y <= reach.bottom + 1e-3;
}

}  // namespace

TEST_CASE("the library reads without a message") {
  Shelf shelf;
  for (const auto& name : shelf.library.definition_names()) CHECK(shelf.library.definition(name));
  for (const auto& name : shelf.library.symbol_names()) CHECK(shelf.library.symbol(name));
  for (const auto& name : shelf.library.part_names()) CHECK(shelf.library.part(name));
  for (const Message& message : shelf.messages) {
    const Source& source = shelf.sources[message.places.front().span.file];
    FAIL_CHECK(source.path << ":" << position_of(source, message.places.front().span.begin).line << " " << message.sentence << " / " << message.fix);
  }
  CHECK(shelf.library.definition_names().size() >= 120);
}

TEST_CASE("every symbol of the catalogue is in the library, stroke for stroke") {
  Shelf shelf;
  for (const auto& [name, wanted] : reference()["symbols"].items()) {
    INFO(name);
    const Symbol* symbol = shelf.library.symbol(name);
    REQUIRE(symbol);
    const Figure figure = figure_of(shelf.library, *symbol);
    CHECK(figure.strokes.size() == wanted["strokes"].get<std::size_t>());
    const Extent extent = extent_of(figure.strokes);
    CHECK(extent.left == Approx(wanted["extent"][0].get<double>()).margin(2e-3));
    CHECK(extent.top == Approx(wanted["extent"][1].get<double>()).margin(2e-3));
    CHECK(extent.right == Approx(wanted["extent"][2].get<double>()).margin(2e-3));
    CHECK(extent.bottom == Approx(wanted["extent"][3].get<double>()).margin(2e-3));
    CHECK(figure.ports.size() == wanted["ports"].size());
    for (const SymbolPort& port : figure.ports) {
      REQUIRE(wanted["ports"].contains(port.name));
      CHECK(port.x == wanted["ports"][port.name][0].get<double>());
      CHECK(port.y == wanted["ports"][port.name][1].get<double>());
    }
  }
}

TEST_CASE("a valve composed from its rows equals the reviewed drawing") {
  Shelf shelf;
  REQUIRE(reference()["rows"].size() > 30);
  for (const auto& [name, wanted] : reference()["rows"].items()) {
    INFO(name);
    Row row = row_of(wanted);
    // The catalogue's proportional valves meter in every box; here only the operator says so.
    for (const auto& position : wanted["positions"])
      for (const auto& by : position["by"]) row.continuous |= by["means"] == "proportional-solenoid" || by["means"] == "torque-motor";
    const Figure figure = row_figure(shelf.library, row);
    CHECK(spelled(figure.strokes) == spelled(strokes_of(wanted["strokes"])));
    for (const SymbolPort& port : figure.ports) {
      INFO(port.name);
      REQUIRE(wanted["ports"].contains(port.name));
      CHECK(port.x == wanted["ports"][port.name][0].get<double>());
      CHECK(port.y == wanted["ports"][port.name][1].get<double>());
    }
    CHECK(figure.ports.size() == wanted["ports"].size());
  }
}

TEST_CASE("every port of a symbol lies on a whole module at the end of a stroke") {
  Shelf shelf;
  for (const auto& name : shelf.library.symbol_names()) {
    const Figure figure = figure_of(shelf.library, *shelf.library.symbol(name));
    for (const SymbolPort& port : figure.ports) {
      INFO(name << "." << port.name);
      CHECK(port.x == std::round(port.x));
      CHECK(port.y == std::round(port.y));
      const bool ended = std::any_of(figure.strokes.begin(), figure.strokes.end(), [&](const Stroke& s) { return ends_at(s, {port.x, port.y}); });
      CHECK((ended || (port.use == PortUse::mechanical && touches(figure, port))));
    }
    if (figure.strokes.empty()) continue;
    const Extent reach = extent_of(figure.strokes);
    INFO(name << " centre");
    CHECK((figure.centre.x >= reach.left && figure.centre.x <= reach.right && figure.centre.y >= reach.top && figure.centre.y <= reach.bottom));
  }
}

TEST_CASE("four quarter turns give a symbol back, and two flips too") {
  Shelf shelf;
  for (const auto& name : shelf.library.symbol_names()) {
    INFO(name);
    const Figure figure = figure_of(shelf.library, *shelf.library.symbol(name));
    Figure turned = figure, flipped = moved(moved(figure, {0, 0, 0, true}), {0, 0, 0, true});
    for (int i = 0; i < 4; ++i) turned = moved(turned, {0, 0, 1, false});
    CHECK(spelled(turned.strokes) == spelled(figure.strokes));
    CHECK(spelled(flipped.strokes) == spelled(figure.strokes));
    for (std::size_t i = 0; i < figure.ports.size(); ++i) {
      CHECK(turned.ports[i].side == figure.ports[i].side);
      CHECK(flipped.ports[i].side == figure.ports[i].side);
    }
  }
}

TEST_CASE("a variant has the ports of its original") {
  Shelf shelf;
  for (const auto& name : shelf.library.symbol_names()) {
    const Symbol* symbol = shelf.library.symbol(name);
    if (symbol->variant_of.empty()) continue;
    INFO(name);
    const Symbol* original = shelf.library.symbol(symbol->variant_of);
    REQUIRE(original);
    std::set<std::string> here, there;
    for (const auto& port : symbol->ports) here.insert(port.name);
    for (const auto& port : original->ports) there.insert(port.name);
    CHECK(here == there);
  }
}

TEST_CASE("every symbol that a definition names is there, with its ports") {
  Shelf shelf;
  for (const auto& name : shelf.library.definition_names()) {
    const Definition* definition = shelf.library.definition(name);
    for (const SymbolChoice& choice : definition->symbols) {
      if (choice.symbol == "row" || choice.symbol == "trough") continue;
      INFO(name << " drawn as " << choice.symbol);
      const Symbol* symbol = shelf.library.symbol(choice.symbol);
      REQUIRE(symbol);
      for (const PortSpec& port : definition->ports) {
        INFO("port " << port.name);
        const bool drawn = std::any_of(symbol->ports.begin(), symbol->ports.end(), [&](const SymbolPort& p) { return p.name == port.name; });
        CHECK((drawn || port.may_stay_open));
      }
    }
  }
}

TEST_CASE("a trough holds its entries on the rim") {
  const Figure figure = trough_figure(12, 4, false, {{"S", -4, false, PortUse::main}, {"L", 4, true, PortUse::drain}});
  CHECK(figure.ports.size() == 2);
  for (const SymbolPort& port : figure.ports) CHECK((port.y == 0 && port.side == Side::above));
  CHECK(figure.strokes[1].numbers == std::vector<double>{-4, 0, -4, 3});
  CHECK(figure.strokes[2].kind == StrokeKind::drain);
  CHECK(figure.strokes[2].numbers == std::vector<double>{4, 0, 4, 1});
}

}  // namespace ferrule::symbols
