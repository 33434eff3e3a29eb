// Sheets that show a state: nothing touches, lines tell what the paths tell, arrows run as the oil does, valves stand shifted.
#include <catch2/catch.hpp>

#include <algorithm>

#include "drawings/drawn.hpp"
#include "drawings/measure.hpp"
#include "render/symbols/box.hpp"
#include "render/symbols/symbols.hpp"
#include "support/files.hpp"

using namespace ferrule;

namespace {

struct Shown {
  std::unique_ptr<Compilation> made;
  States states;
  std::unique_ptr<Points> points;
  std::unique_ptr<working::Book> book;

  explicit Shown(const std::string& path) : made(drawn::compiled(tests::project_text(path))) {
    states = states_of(made->circuit);
    points = std::make_unique<Points>(made->circuit, states.states);
    book = std::make_unique<working::Book>(made->circuit, states.states, *points);
  }
  StateView view(std::size_t state) const { return view_of(*book, state); }
  Drawing drawing(std::size_t state) const {
    const StateView shown = view(state);
    Drawing drawing = draw(*made, "circuit", &shown);
    drawn::check_read_back(*made, drawing);
    return drawing;
  }
};

const DrawnNet* net_at(const Drawing& drawing, const std::string& symbol, const std::string& port) {
  for (const DrawnNet& net : drawing.sheets.front().nets)
    for (const DrawnNet::End& end : net.ends)
      if (end.symbol == symbol && end.port == port) return &net;
  return nullptr;
}

std::string state_at(const Drawing& drawing, const std::string& symbol, const std::string& port) {
  const DrawnNet* net = net_at(drawing, symbol, port);
  return net && net->state ? std::string(look_of(*net->state).name) : "nothing";
}

}  // namespace

TEST_CASE("every told state of samples and machines is drawn without a hard error or a text that touches") {
  for (const char* folder : {"samples", "tests/briefs"})
    for (const std::string& path : tests::files_below(folder, ".fer")) {
      const Shown shown(path);
      for (const std::size_t state : shown.book->told()) {
        const measure::Figures figures = measure::of(geometry_json(shown.drawing(state)));
        INFO(path << ", " << shown.states.states[state].name << "\n" << (figures.faults.empty() ? "" : figures.faults.front()));
        CHECK(figures.errors() == 0);
      }
    }
}

// Common practice: what a tandem centre, a directional valve and a closed gauge isolator do.
TEST_CASE("lines are drawn as the oil is") {
  const Shown shown("samples/bale-squeezer.fer");
  const Drawing squeeze = shown.drawing(*shown.book->state_named("squeeze"));
  CHECK(state_at(squeeze, "0P1", "P") == "fed");
  CHECK(state_at(squeeze, "1A1", "A") == "fed");
  CHECK(state_at(squeeze, "1A1", "B") == "returned");
  CHECK(state_at(squeeze, "0P1", "S") == "suction");
  CHECK(state_at(squeeze, "0Z4", "P") == "blocked");
  const Drawing waiting = shown.drawing(*shown.book->state_named("waiting"));
  CHECK(state_at(waiting, "0P1", "P") == "circulates");
  CHECK(state_at(waiting, "1A1", "A") == "trapped");
  CHECK(state_at(waiting, "1V1", "T") == "circulates");
}

TEST_CASE("oil let off through a throttle is not drawn as if it had no pressure") {
  const Shown shown("samples/drill-feed.fer");
  const Drawing drill = shown.drawing(*shown.book->state_named("drill"));
  CHECK(state_at(drill, "1A1", "B") == "controlled");
  CHECK(state_at(drill, "1V1", "B") == "returned");
}

TEST_CASE("arrows run with the oil: out of the pump, into the cylinder that extends, out of its rod end") {
  const Shown shown("samples/bale-squeezer.fer");
  const Drawing squeeze = shown.drawing(*shown.book->state_named("squeeze"));
  const auto rises = [](const DrawnNet* net) {
    REQUIRE(net);
    REQUIRE_FALSE(net->arrows.empty());
    double sum = 0;
    for (const DrawnArrow& arrow : net->arrows) sum += arrow.dy;
    return sum < 0;
  };
  CHECK(rises(net_at(squeeze, "0P1", "P")));
  CHECK(rises(net_at(squeeze, "1A1", "A")));
  CHECK_FALSE(rises(net_at(squeeze, "1A1", "B")));
  const Drawing open = shown.drawing(*shown.book->state_named("open"));
  CHECK_FALSE(rises(net_at(open, "1A1", "A")));
  CHECK(rises(net_at(open, "1A1", "B")));
}

TEST_CASE("a valve stands with the box of the state at its ports, and its lines end where they did at rest") {
  const auto made = drawn::compiled(tests::project_text("samples/bale-squeezer.fer"));
  const Circuit& circuit = made->circuit;
  const PartId valve = circuit.part_named("1V1");
  const auto rest = symbols::figures_of(*made->library, circuit, valve);
  const symbols::BoxPorts box = symbols::box_ports(circuit.parts[valve].positions);
  for (int position = 0; position < 3; ++position) {
    const auto shifted = symbols::figures_of(*made->library, circuit, valve, position);
    for (const SymbolPort& port : rest.front().ports) {
      const auto& ports = shifted.front().ports;
      const auto same = std::find_if(ports.begin(), ports.end(), [&](const SymbolPort& p) { return p.name == port.name; });
      REQUIRE(same != ports.end());
      CHECK(same->x == port.x);
      CHECK(same->y == port.y);
    }
    for (const Stroke& path : symbols::box_strokes(box, circuit.parts[valve].positions[static_cast<std::size_t>(position)].paths)) {
      const auto& strokes = shifted.front().strokes;
      CHECK(std::any_of(strokes.begin(), strokes.end(), [&](const Stroke& s) { return s.kind == path.kind && s.numbers == path.numbers; }));
    }
    const symbols::Extent drawn = symbols::extent_of(shifted.front().strokes), room = *shifted.front().room;
    CHECK(room.left <= drawn.left);
    CHECK(room.right >= drawn.right);
    CHECK(room.right - room.left - (drawn.right - drawn.left) == Approx(2 * box.width));
  }
}

TEST_CASE("the same state gives the same bytes, in colour for those who see it") {
  const Shown shown("samples/bale-squeezer.fer");
  for (const char* ending : {".pdf", ".svg", ".png"}) {
    const std::string first = files_of(shown.drawing(1), ending).front().bytes;
    CHECK(first.size() > 1000);
    CHECK(first == files_of(shown.drawing(1), ending).front().bytes);
  }
  const std::string svg = files_of(shown.drawing(1), ".svg").front().bytes;
  CHECK(svg.find("class=\"net pressure fed\"") != std::string::npos);
  CHECK(svg.find("<title>pressure line, fed: 0P1.P") != std::string::npos);
  CHECK(svg.find("State: squeeze") != std::string::npos);
}
