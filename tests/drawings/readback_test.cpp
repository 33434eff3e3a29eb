// The sheet says what the text says: read back from hand-laid sheets, and noticed wherever a drawing is spoilt.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "drawings/drawn.hpp"
#include "render/readback/verify.hpp"
#include "support/files.hpp"
#include "support/generator.hpp"

using namespace ferrule;
using Json = nlohmann::json;

namespace {

// A circuit with the geometry of its sheet, to be spoilt.
struct Sheets {
  std::unique_ptr<Compilation> made;
  Json geometry;

  explicit Sheets(const std::string& text) : made(drawn::compiled(text)), geometry(Json::parse(geometry_json(draw(*made, "circuit", nullptr, {"fit", false})))) {}
  std::vector<std::string> differences(const Json& spoilt) const { return readback::verify(made->circuit, spoilt.dump()).differences; }
  bool noticed(const Json& spoilt) const { return !differences(spoilt).empty(); }
};

std::vector<Sheets> many_sheets() {
  std::vector<Sheets> all;
  for (const char* folder : {"samples", "tests/briefs"})
    for (const std::string& path : tests::files_below(folder, ".fer")) all.emplace_back(tests::project_text(path));
  for (std::uint32_t seed = 1; seed <= 6; ++seed) all.emplace_back(tests::generated_circuit(30 + static_cast<int>(seed), seed));
  return all;
}

std::vector<Sheets>& sheets() {
  static std::vector<Sheets> all = many_sheets();
  return all;
}

bool both_end_in_a_reservoir(const Json& a, const Json& b) {
  const auto ends = [](const Json& net) {
    return std::any_of(net["ends"].begin(), net["ends"].end(), [](const Json& end) {
      const std::string symbol = end["symbol"];
      return symbol.substr(0, 3) == "0Z1" || symbol.substr(0, 2) == "T1";
    });
  };
  return ends(a) && ends(b);
}

bool between(double v, double a, double b) { return std::min(a, b) - 0.01 <= v && v <= std::max(a, b) + 0.01; }

// Whether ink of another path of the net lies there already: then nothing changes on paper.
bool inked_already(const Json& net, const Json& path, const Json& from, const Json& to) {
  for (const Json& other : net["paths"])
    for (std::size_t i = 1; i < other.size() && &other != &path; ++i)
      for (const int axis : {0, 1}) {
        const int across = 1 - axis;
        const Json &p = other[i - 1], &q = other[i];
        if (p[across] == q[across] && from[across] == p[across] && to[across] == p[across] && between(from[axis], p[axis], q[axis]) && between(to[axis], p[axis], q[axis]))
          return true;
      }
  return false;
}

}  // namespace

// Laid by hand for the briefs, by nobody's code (tests/reference/gold). They name some things otherwise than the texts of the briefs.
TEST_CASE("the hand-laid sheets of four machines are read as their texts") {
  for (const char* machine : {"card-baler", "crate-pusher", "picking-platform", "veneer-clamp-press"}) {
    const auto made = drawn::compiled(tests::project_text(std::string("tests/briefs/") + machine + ".fer"));
    Json geometry = Json::parse(tests::project_text(std::string("tests/reference/gold/") + machine + ".json"));
    for (Json& symbol : geometry["sheets"][0]["symbols"]) {
      if (symbol["kind"] == "tankmark") symbol["stands_for"] = "T1";
      if (symbol["kind"] == "reservoir") symbol["parts"] = {"ST1"};
      for (Json& port : symbol["ports"]) {
        if (symbol["kind"] == "reservoir" && port["id"] == "S") port["of"] = {{"symbol", "ST1"}, {"port", "OUT"}};
        if (symbol["kind"] == "shuttle-valve" && port["id"] != "OUT") port["id"] = port["id"] == "A" ? "1" : "2";
      }
    }
    readback::Verdict verdict = readback::verify(made->circuit, geometry.dump());
    // The hand that laid the crate pusher left its switches to the cycle table.
    for (const char* gap : {"S1 is not drawn", "S2 is not drawn", "S3 is not drawn"}) std::erase(verdict.differences, gap);
    INFO(machine << (verdict.differences.empty() ? "" : ": " + verdict.differences.front()));
    CHECK(verdict.unreadable == "");
    CHECK(verdict.differences.empty());
    CHECK(verdict.ports > 20);
  }
}

TEST_CASE("a line end that is shifted by a module is noticed, at every end of every line, in every direction") {
  int tried = 0;
  for (const Sheets& one : sheets()) {
    Json spoilt = one.geometry;
    for (Json& net : spoilt["sheets"][0]["nets"])
      for (Json& path : net["paths"])
        for (const std::size_t end : {std::size_t{0}, path.size() - 1})
          for (const auto& [axis, by] : {std::pair{0, 2.0}, {0, -2.0}, {1, 2.0}, {1, -2.0}}) {
            const Json kept = path;
            path[end][axis] = double(path[end][axis]) + by;
            const std::size_t next = end == 0 ? 1 : end - 1;
            if (path[end] != path[next] && !inked_already(net, path, kept[end], path[end])) {
              ++tried;
              INFO("net " << net["id"] << " was " << kept.dump() << "\nis " << path.dump());
              CHECK(one.noticed(spoilt));
            }
            path = kept;
          }
  }
  CHECK(tried > 2000);
}

TEST_CASE("a dot that is dropped, or put where lines cross, is noticed") {
  int tried = 0;
  for (const Sheets& one : sheets()) {
    Json spoilt = one.geometry;
    for (Json& net : spoilt["sheets"][0]["nets"]) {
      const Json kept = net["junctions"];
      for (std::size_t i = 0; i < kept.size(); ++i) {
        net["junctions"].erase(i);
        CHECK(one.noticed(spoilt));
        net["junctions"] = kept;
        ++tried;
      }
      for (const Json& path : net["paths"]) {
        net["junctions"].push_back({(double(path[0][0]) + double(path[1][0])) / 2, (double(path[0][1]) + double(path[1][1])) / 2});
        CHECK((net["kind"] == "shaft" || one.noticed(spoilt)));
        net["junctions"] = kept;
      }
    }
  }
  CHECK(tried > 200);
}

TEST_CASE("two ports of a symbol that change places are noticed") {
  int tried = 0;
  for (const Sheets& one : sheets()) {
    Json spoilt = one.geometry;
    for (Json& symbol : spoilt["sheets"][0]["symbols"]) {
      if (symbol["kind"] == "reservoir" && !symbol.contains("parts")) continue;  // its connections are one point
      Json& ports = symbol["ports"];
      for (std::size_t i = 1; i < ports.size(); ++i) {
        if (symbol["kind"] == "reservoir" && !ports[i].contains("of")) continue;
        std::swap(ports[0]["x"], ports[i]["x"]);
        std::swap(ports[0]["y"], ports[i]["y"]);
        const Circuit& circuit = one.made->circuit;
        const PartId part = circuit.part_named(std::string(symbol["id"]));
        const PortId a = part ? circuit.port_of(part, std::string(ports[0]["id"])) : PortId{}, b = part ? circuit.port_of(part, std::string(ports[i]["id"])) : PortId{};
        const bool same = a && b && circuit.ports[a].node == circuit.ports[b].node;
        if (!same) {
          ++tried;
          INFO(symbol["id"] << " " << ports[0]["id"] << " " << ports[i]["id"]);
          CHECK(one.noticed(spoilt));
        }
        std::swap(ports[0]["x"], ports[i]["x"]);
        std::swap(ports[0]["y"], ports[i]["y"]);
      }
    }
  }
  CHECK(tried > 300);
}

TEST_CASE("two nets that are joined where they cross are noticed, and the message says which and where") {
  int tried = 0;
  for (const Sheets& one : sheets()) {
    const Json& nets = one.geometry["sheets"][0]["nets"];
    const auto crossing = [](const Json& p, const Json& q, const Json& r, const Json& s) -> std::optional<std::pair<double, double>> {
      if (p[1] != q[1] || r[0] != s[0]) return {};
      const double x = r[0], y = p[1];
      const auto inside = [](double v, double a, double b) { return std::min(a, b) + 0.1 < v && v < std::max(a, b) - 0.1; };
      if (!inside(x, p[0], q[0]) || !inside(y, r[1], s[1])) return {};
      return std::pair{x, y};
    };
    for (std::size_t a = 0; a < nets.size(); ++a)
      for (std::size_t b = 0; b < nets.size(); ++b)
        for (const Json& p : nets[a]["paths"])
          for (const Json& q : nets[b]["paths"])
            for (std::size_t i = 1; i < p.size(); ++i)
              for (std::size_t j = 1; j < q.size(); ++j) {
                const auto at = a == b ? std::nullopt : crossing(p[i - 1], p[i], q[j - 1], q[j]);
                if (!at || nets[a]["kind"] == "shaft" || nets[b]["kind"] == "shaft") continue;
                Json spoilt = one.geometry;
                spoilt["sheets"][0]["nets"][a]["junctions"].push_back({at->first, at->second});
                if (both_end_in_a_reservoir(nets[a], nets[b])) continue;  // one point whatever they do on the way
                const auto differences = one.differences(spoilt);
                ++tried;
                REQUIRE_FALSE(differences.empty());
                CHECK(differences.front().find("the text keeps them apart") != std::string::npos);
                CHECK(differences.front().find(fmt::format("{} mm from the left, {} mm from the top", at->first, at->second)) != std::string::npos);
              }
  }
  CHECK(tried > 20);
}

TEST_CASE("whatever is left out is noticed: a line, a mark, a symbol") {
  int tried = 0;
  for (const Sheets& one : sheets()) {
    for (const char* what : {"nets", "symbols"})
      for (std::size_t i = 0; i < one.geometry["sheets"][0][what].size(); ++i) {
        Json spoilt = one.geometry;
        Json& things = spoilt["sheets"][0][what];
        if (things[i]["kind"] == "breather") continue;  // the text has no line to it
        INFO(what << " " << things[i]["id"]);
        things.erase(i);
        CHECK(one.noticed(spoilt));
        ++tried;
      }
  }
  CHECK(tried > 800);
}

TEST_CASE("a mark of another reservoir is noticed") {
  const Sheets two(R"(reservoir 0Z1 { volume 30 L, breather }
reservoir 0Z2 { volume 30 L, breather }
electric-motor 0M1 { power 3 kW, speed 1420 rpm }
fixed-pump 0P1 { displacement 8 cm3/rev, driven-by 0M1, rated 210 bar }
relief-valve 0V1 { setting 135 bar }
valve 1V1 {
  position 0 P-T by spring
  position a P>A by solenoid 1Y1
}
cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 200 mm }
suction 0Z1 -- 0P1.S
pressure 0P1.P -- 0V1.P -- 1V1.P
working 1V1.A -- 1A1.A
return 1A1.B -- 0Z2
return 1V1.T -- 0Z1
return 0V1.T -- 0Z1
)");
  REQUIRE_FALSE(two.noticed(two.geometry));
  int marks = 0;
  Json spoilt = two.geometry;
  for (Json& symbol : spoilt["sheets"][0]["symbols"]) {
    if (symbol["kind"] != "tankmark") continue;
    const std::string of = symbol["stands_for"];
    symbol["stands_for"] = of == "0Z1" ? "0Z2" : "0Z1";
    CHECK(two.noticed(spoilt));
    symbol["stands_for"] = of;
    ++marks;
  }
  CHECK(marks > 0);
}

TEST_CASE("a difference names the ports, the sheet, the field and the millimetres") {
  const Sheets one(tests::project_text("samples/bale-squeezer.fer"));
  Json spoilt = one.geometry;
  for (Json& net : spoilt["sheets"][0]["nets"])
    if (net["id"] == "1A1.A") net["paths"][0].erase(net["paths"][0].begin());
  const auto differences = one.differences(spoilt);
  REQUIRE_FALSE(differences.empty());
  const std::string all = differences.front() + (differences.size() > 1 ? differences[1] : "");
  CHECK(all.find("sheet 1, field ") != std::string::npos);
  CHECK(all.find(" mm from the left, ") != std::string::npos);
}

TEST_CASE("the geometry keeps its schema") {
  for (const char* path : {"samples/goods-hoist.fer", "samples/bench-power-unit.fer", "samples/tile-line.fer", "tests/briefs/lens-mould-clamp.fer"})
    drawn::check_schema(geometry_json(drawn::file(path)));
}
