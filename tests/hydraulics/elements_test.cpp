// Each element in the smallest circuit that shows what it does. Laws and their sources stand in compiler/hydraulics/.
#include <catch2/catch.hpp>

#include "hydraulics/bench.hpp"

using namespace bench;

namespace {

Bench source(double l_min, double relief_at = 200) {
  Bench b;
  b.oil(32, 870);
  b.tank("t");
  b.pump("P1", "t", "p", 10, l_min * 100, 1);
  b.relief("RV1", "p", "t", relief_at, relief_at + 10, l_min);
  return b;
}

std::vector<Given> check_data(double cracks, double drops, double at) {
  return {{P::cracking, cracks * bar}, {P::drop, drops * bar}, {P::drop_flow, at * lpm}};
}

}  // namespace

TEST_CASE("A check passes one way, at its stated total drop") {
  Bench b = source(10);
  b.add(one_way, "CV1", {"p", "t"}, check_data(0.5, 2.5, 20));
  CHECK(Reading(b).p("p") == Approx(0.5 + 2.0 / 4).epsilon(1e-4));
  Bench back = source(10);
  back.add(one_way, "CV1", {"t", "p"}, check_data(0.5, 2.5, 20));
  CHECK(Reading(back).q("CV1") == Approx(0).margin(1e-6));
  CHECK(Reading(back).p("p") == Approx(210).epsilon(1e-4));
}

TEST_CASE("A setting alone puts cracking below it by the override share") {
  auto pressure_at = [](double l_min, std::vector<std::string_view> flags) {
    Bench b;
    b.tank("t");
    b.pump("P1", "t", "p", 10, 2000, 1);
    b.add(pressure_path, "RV1", {"p", "t"}, {{P::setting, 160 * bar}}, flags);
    b.add(regulated_flow, "FC1", {"p", "t"}, {{P::flow, (20 - l_min) * lpm}, {P::least_drop, 8 * bar}});
    const Reading r(b);
    CHECK(r.point.defaults.size() >= 1);
    return r.p("p");
  };
  CHECK(pressure_at(20 - 1e-6, {}) == Approx(160).epsilon(1e-4));
  CHECK(pressure_at(10, {}) == Approx(140).epsilon(1e-4));               // 25 % direct: cracking 120, half way up
  CHECK(pressure_at(10, {"two-stage"}) == Approx(152).epsilon(1e-4));    // 10 % pilot operated
}

TEST_CASE("A sequence valve keeps its inlet up and drops the rest") {
  Bench b = source(18);
  b.add(pressure_path, "SQ1", {"p", "c"}, {{P::cracking, 60 * bar}, {P::full_flow, 66 * bar}, {P::full_flow_flow, 20 * lpm},
                                           {P::drop, 3 * bar}, {P::drop_flow, 25 * lpm}});
  b.senses("SQ1", {{"p", 1}});
  b.path("V1", "c", "t", 2, 20);
  const Reading r(b);
  CHECK(r.p("p") == Approx(60 + 6 * 18.0 / 20).epsilon(1e-4));
  CHECK(r.p("c") == Approx(2 * 0.81).epsilon(1e-3));
}

TEST_CASE("An unloading valve opens by a pressure elsewhere") {
  Bench b = source(18);
  b.pump("P2", "t", "h", 2, 1000, 1);
  b.relief("RV2", "h", "t", 150, 160, 2);
  b.add(one_way, "CV1", {"p", "h"}, check_data(0.3, 1, 20));
  b.add(pressure_path, "UV1", {"p", "t"}, {{P::cracking, 45 * bar}, {P::full_flow, 48 * bar}, {P::full_flow_flow, 20 * lpm},
                                           {P::drop, 1.4 * bar}, {P::drop_flow, 20 * lpm}});
  b.senses("UV1", {{"h", 1}});
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.p("h") == Approx(160).epsilon(1e-3));
  CHECK(r.q("UV1") == Approx(18).epsilon(1e-4));
  CHECK(r.p("p") == Approx(1.4 * 0.81).epsilon(1e-3));
}

// Opens at C + 4 X = 98 bar; 42 kN on 90 mm is 66.02 bar, so X settles where the load is just let down.
TEST_CASE("A counterbalance valve holds at rest and lets down only under pilot") {
  auto boom = [](bool lowering) {
    Bench b = source(25);
    b.add(pressure_path, "CB1", {"c", "v"}, {{P::cracking, 98 * bar}, {P::full_flow, 104 * bar}, {P::full_flow_flow, 40 * lpm},
                                             {P::drop, 6 * bar}, {P::drop_flow, 60 * lpm}});
    b.senses("CB1", {{"c", 1}, {"b", 4}});
    b.add(one_way, "CB1 check", {"v", "c"}, check_data(0.8, 4, 60));
    b.cylinder("C1", "c", "b", 90, 63, 1000);
    if (lowering) b.path("V1 P>B", "p", "b", 4, 60);
    b.path("V1 A>T", "v", "t", 4, 60);
    if (!lowering) b.path("V1 B>T", "b", "t", 4, 60);
    b.moves("C1", lowering ? Motion::Kind::retracts : Motion::Kind::held, 42 * kN, Load::Sense::pushing_in);
    return b;
  };
  const Bench held = boom(false), lowered = boom(true);
  const Reading h(held), l(lowered);
  REQUIRE(h.point.settled);
  CHECK(h.v("C1") == Approx(0).margin(1e-6));
  CHECK(h.p("c") == Approx(66.02).epsilon(1e-3));
  REQUIRE(l.point.settled);
  const double ring = std::numbers::pi / 4 * (0.090 * 0.090 - 0.063 * 0.063);
  CHECK(l.v("C1") == Approx(-25 * lpm / ring * 1000).epsilon(1e-4));
  CHECK(l.p("c") + 4 * l.p("b") == Approx(98 + 6.0 * -l.q("C1") / 40).epsilon(1e-3));
}

TEST_CASE("A pilot-operated check holds, and opens by its pilot") {
  auto held = [](double pilot) {
    Bench b;
    b.tank("t");
    b.add(gas_volume, "A1", {"x"}, {{P::gas_pressure, pilot * bar}});
    std::vector<Given> data = check_data(0.5, 2, 20);
    data.push_back({P::ratio, 3});
    b.add(piloted_one_way, "PC1", {"t", "c"}, data);
    b.senses("PC1", {{"x", 1}});
    b.add(piston, "C1", {"c"}, {{P::bore, 50 * mm}, {P::friction, 0}});
    b.moves("C1", Motion::Kind::held, 100e5 * std::numbers::pi / 4 * 0.0025, Load::Sense::pushing_in);  // 100 bar
    return Reading(b).v("C1");
  };
  CHECK(held(30) == Approx(0).margin(1e-4));  // 3 x 30 < 100
  CHECK(held(36) < -1);                       // 3 x 36 > 100
}

TEST_CASE("A reducing valve keeps its outlet down") {
  Bench b = source(10);
  b.add(reducing_path, "PR1", {"p", "r"}, {{P::setting, 50 * bar}, {P::drop, 4 * bar}, {P::drop_flow, 20 * lpm}});
  b.senses("PR1", {{"r", 1}});
  b.add(restriction, "O1", {"r", "t"}, {{P::drop, 50 * bar}, {P::drop_flow, 4 * lpm}});
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.p("r") == Approx(50).epsilon(1e-3));
  CHECK(r.q("PR1") == Approx(4).epsilon(1e-3));
  CHECK(r.q("RV1") == Approx(6).epsilon(1e-3));
}

TEST_CASE("A compensated flow control keeps its flow while it has its least drop") {
  auto flow_under = [](double pressure) {
    Bench b;
    b.tank("t");
    b.add(gas_volume, "A1", {"p"}, {{P::gas_pressure, pressure * bar}});
    b.add(regulated_flow, "FC1", {"p", "t"}, {{P::flow, 8 * lpm}, {P::least_drop, 7 * bar}});
    return Reading(b).q("FC1");
  };
  CHECK(flow_under(140) == Approx(8).epsilon(1e-6));
  CHECK(flow_under(7.0 / 4) == Approx(4).epsilon(1e-4));  // an orifice below: half the flow at a quarter of the drop
}

TEST_CASE("A three-way flow control sends the excess away at load pressure plus its drop") {
  Bench b = source(20);
  b.add(regulated_flow, "FC1", {"p", "a", "t"}, {{P::flow, 8 * lpm}, {P::least_drop, 7 * bar}});
  b.path("Load", "a", "t", 60, 8);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.q("Load") == Approx(8).epsilon(1e-3));
  CHECK(r.p("p") == Approx(67).epsilon(1e-3));
  CHECK(r.q("RV1") == Approx(0).margin(1e-6));
}

TEST_CASE("A hose-burst valve stays open below its closing flow and shuts above it") {
  auto drained = [](double closing) {
    Bench b;
    b.tank("t");
    b.add(piston, "C1", {"c"}, {{P::bore, 50 * mm}, {P::friction, 0}});
    b.add(flow_fuse, "HB1", {"c", "m"}, {{P::drop, 1.5 * bar}, {P::drop_flow, 8 * lpm}, {P::closing_flow, closing * lpm}});
    b.path("O1", "m", "t", 100, 10);
    b.moves("C1", Motion::Kind::retracts, 30 * kN, Load::Sense::pushing_in);
    return Reading(b).q("HB1");
  };
  CHECK(drained(14) == Approx(12.2).epsilon(0.02));  // 152.8 bar over 101.5 + 1.4 bar at 10 L/min
  CHECK(drained(10) == Approx(0).margin(1e-6));
}

TEST_CASE("A compensated pump destrokes, a load-sensing pump follows its signal") {
  Bench b;
  b.tank("t");
  b.add(displacement, "P1", {"t", "p"}, {{P::displacement, 40 * cm3_per_rev}, {P::speed, 1500 * rpm}, {P::volumetric, 1},
                                         {P::full_stroke_pressure, 150 * bar}, {P::zero_pressure, 160 * bar}}, {"pump"});
  const Reading shut(b);
  REQUIRE(shut.point.settled);
  CHECK(shut.p("p") == Approx(160).epsilon(1e-6));
  CHECK(shut.q("P1") == Approx(0).margin(1e-4));
  b.path("V1", "p", "t", 155, 30);
  CHECK(Reading(b).p("p") == Approx(155).epsilon(1e-3));  // 155 bar leaves half the stroke: 30 L/min
  CHECK(Reading(b).q("P1") == Approx(30).epsilon(1e-3));

  Bench s;
  s.tank("t");
  s.add(displacement, "P1", {"t", "p", "l"}, {{P::displacement, 45 * cm3_per_rev}, {P::speed, 2000 * rpm}, {P::volumetric, 0.95},
                                              {P::margin, 18 * bar}, {P::cut_off, 210 * bar}}, {"pump"});
  s.senses("P1", {{"x", 1}});
  s.path("Case", "l", "t", 1, 10);
  s.add(regulated_flow, "V1", {"p", "a"}, {{P::flow, 38 * lpm}, {P::least_drop, 10 * bar}});
  s.path("Load", "a", "t", 70, 38);
  s.add(passage, "LS", {"a", "x"});
  const Reading r(s);
  REQUIRE(r.point.settled);
  CHECK(r.p("p") == Approx(88).epsilon(1e-3));
  CHECK(r.q("P1") == Approx(38).epsilon(1e-4));
  CHECK(r.q("Case") == Approx(4.5).epsilon(1e-4));  // 5 % of 45 cm3 x 2000
}

TEST_CASE("A power-limited pump gives up flow for pressure") {
  Bench b;
  b.tank("t");
  b.add(displacement, "P1", {"t", "p"}, {{P::displacement, 40 * cm3_per_rev}, {P::speed, 1500 * rpm}, {P::volumetric, 1},
                                         {P::mechanical, 1}, {P::power, 5000}}, {"pump"});
  b.path("V1", "p", "t", 100, 30);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.p("p") * r.q("P1") / 600 == Approx(5).epsilon(1e-4));  // kW = bar L/min / 600
}

TEST_CASE("A shuttle passes the higher side") {
  Bench b;
  b.tank("t");
  b.add(gas_volume, "A1", {"a"}, {{P::gas_pressure, 40 * bar}});
  b.add(gas_volume, "A2", {"b"}, {{P::gas_pressure, 70 * bar}});
  b.add(selector, "SH1", {"a", "b", "x"});
  CHECK(Reading(b).p("x") == Approx(70).epsilon(1e-4));
  CHECK_FALSE(Reading(b).trapped("x"));
}

TEST_CASE("A gear divider shares by displacement, and its unloaded section drives the other") {
  Bench b = source(20);
  for (const char* out : {"a", "b"})
    b.add(displacement, std::string("FD1 ") + out, {"p", out}, {{P::displacement, 5 * cm3_per_rev}, {P::volumetric, 1}, {P::mechanical, 1}}, {"motor"});
  b.add(shared_shaft, "FD1", {});
  b.path("A", "a", "t", 100, 10);
  b.path("B", "b", "t", 1, 10);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.q("A") == Approx(10).epsilon(1e-3));
  CHECK(r.q("B") == Approx(10).epsilon(1e-3));
  CHECK(r.p("p") == Approx(50.5).epsilon(1e-3));  // mean of the outlets: torque balance on the common shaft
}

TEST_CASE("A motor leaks to its case and stalls when overloaded") {
  Bench b = source(20, 100);
  b.add(displacement, "HM1", {"p", "b", "l"}, {{P::displacement, 100 * cm3_per_rev}, {P::volumetric, 0.94}, {P::mechanical, 0.91}}, {"motor"});
  b.path("Out", "b", "t", 1, 20);
  b.path("Case", "l", "t", 0.5, 5);
  b.moves("HM1", Motion::Kind::turns_ab, 100);
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.n("HM1") == Approx(20 * 0.94 / 0.1).epsilon(1e-4));
  CHECK(r.q("Case") == Approx(20 * 0.06).epsilon(1e-4));
  CHECK(r.p("p") - r.p("b") == Approx(100 / (100 * cm3_per_rev) / 0.91 / 1e5).epsilon(1e-3));
  b.state.motions.clear();
  b.moves("HM1", Motion::Kind::turns_ab, 200);
  CHECK(Reading(b).n("HM1") == Approx(0).margin(1e-3));
}

TEST_CASE("Tied rams share one load") {
  Bench b = source(8);
  b.cylinder("C1", "p", "", 50, 50, 500);
  b.cylinder("C2", "p", "", 50, 50, 500);
  b.circuit.ties.push_back({b.part("C1"), b.part("C2")});
  b.moves("C1", Motion::Kind::extends, 60 * kN, Load::Sense::pushing_in);
  b.state.motions.back().tie = 0;
  const Reading r(b);
  REQUIRE(r.point.settled);
  CHECK(r.p("p") == Approx(61000 / (2 * 19.634954e-4) / 1e5).epsilon(1e-3));
  CHECK(r.v("C1") == Approx(8 * lpm / (2 * 19.634954e-4) * 1000).epsilon(1e-4));
}

TEST_CASE("A chamber that nothing fills is reported void") {
  Bench b;
  b.tank("t");
  b.cylinder("C1", "c", "", 50, 50, 0);
  b.add(one_way, "CV1", {"c", "t"}, check_data(0.5, 2, 20));
  b.moves("C1", Motion::Kind::extends, 30 * kN, Load::Sense::pulling_out);
  const Reading r(b);
  CHECK(r.point.voided[b.nodes.at("c").index]);
}

TEST_CASE("A spring brings a single-acting cylinder back") {
  Bench b;
  b.oil(32, 870);
  b.tank("t");
  b.add(piston, "C1", {"c"}, {{P::bore, 50 * mm}, {P::friction, 0}, {P::spring_free, 300}, {P::spring_end, 600}});
  b.path("V1", "c", "t", 1.528, 10);
  b.moves("C1", Motion::Kind::retracts);
  CHECK(Reading(b).q("C1") == Approx(-10).epsilon(1e-2));  // 300 N / 19.63 cm2 = 1.528 bar over the path
}
