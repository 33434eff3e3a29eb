// Chain lines around assemblies, read off the emitted geometry (ISO 1219-1, from memory: a chain line frames exactly what belongs to
// one assembly; common practice: its name stands inside the frame).
#include <catch2/catch.hpp>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "drawings/drawn.hpp"
#include "drawings/measure.hpp"

namespace {

using Json = nlohmann::json;

constexpr const char* two_jacks = R"(circuit "Two jacks" { "Lifts a platform.", ambient 15 degC }
fluid mineral-oil { grade ISO VG 32, temperature 35 degC }
reservoir      0Z1 { volume 30 L, breather }
electric-motor 0M1 { power 3 kW, speed 1420 rpm }
fixed-pump     0P1 { displacement 8 cm3/rev, driven-by 0M1, rated 210 bar }
relief-valve   0V1 { setting 135 bar }
define jack "lifting jack with its valve" {
  assembly {
    valve V1 {
      position 0   P>A      by spring
      position a   A>T      by solenoid Y1
    }
    check-valve V2 { cracking 0.5 bar }
    single-acting-cylinder A1 { bore 50 mm, rod 28 mm, stroke 200 mm }
    working V1.A -- V2 -- A1.A
  }
  port P is V1.P
  port T is V1.T
}
jack 1
jack 2
suction  0Z1 -- 0P1.S
pressure 0P1.P -- 0V1.P -- 1.P -- 2.P
return   1.T -- 0Z1
return   2.T -- 0Z1
return   0V1.T -- 0Z1
)";

struct Box {
  double left, top, right, bottom;
};
Box box_of(const Json& j) {
  const double x = j["x"], y = j["y"], w = j["w"], h = j["h"];
  return {x, y, x + w, y + h};
}
bool holds(const Box& outer, const Box& inner) {
  return outer.left < inner.left && outer.top < inner.top && inner.right < outer.right && inner.bottom < outer.bottom;
}
bool apart(const Box& a, const Box& b) { return a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top; }

}  // namespace

TEST_CASE("a chain line stands around exactly the members of an assembly and carries its name") {
  const ferrule::Drawing drawing = drawn::text(two_jacks);
  const std::string geometry = ferrule::geometry_json(drawing);
  CHECK(drawing.notes.empty());
  CHECK(measure::of(geometry).errors() == 0);
  const Json sheet = Json::parse(geometry)["sheets"][0];
  REQUIRE(sheet["groups"].size() == 2);
  for (const Json& group : sheet["groups"]) {
    const std::string name = group["id"];
    const Box frame = box_of(group);
    CHECK(group["members"] == Json::array({name + "V1", name + "V2", name + "A1"}));
    for (const Json& symbol : sheet["symbols"]) {
      const std::string id = symbol["id"];
      const bool member = std::find(group["members"].begin(), group["members"].end(), symbol["id"]) != group["members"].end();
      INFO(id << " at the frame of " << name);
      if (symbol["kind"] == "tankmark") CHECK((holds(frame, box_of(symbol)) || apart(frame, box_of(symbol))));   // hangs inside with its drain
      else CHECK((member ? holds(frame, box_of(symbol)) : apart(frame, box_of(symbol))));
    }
    int names = 0;
    for (const Json& label : sheet["labels"]) {
      INFO(label["id"] << " at the frame of " << name);
      CHECK((holds(frame, box_of(label)) || apart(frame, box_of(label))));
      names += label["owner"] == name && label["text"] == name && holds(frame, box_of(label));
    }
    CHECK(names == 1);
  }
}
