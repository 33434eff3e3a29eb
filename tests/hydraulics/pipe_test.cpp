// Pipe friction against published and independently computed values: tests/reference/pipe_flow.csv names each source.
#include <catch2/catch.hpp>

#include <set>

#include "compiler/hydraulics/laws.hpp"
#include "hydraulics/bench.hpp"
#include "support/table.hpp"

using namespace bench;
using ferrule::hydraulics::friction_factor;
using ferrule::tests::after, ferrule::tests::number, ferrule::tests::Row;

namespace {

std::vector<Row> rows_named(const std::string& record) { return ferrule::tests::table("pipe_flow", record); }

double ours(const Row& row) { return friction_factor(number(row, "Re"), number(row, "eps_over_D")); }

}  // namespace

TEST_CASE("Laminar friction is 64/Re") {
  const auto rows = rows_named("laminar");
  REQUIRE(rows.size() == 13);
  for (const Row& row : rows) CHECK(friction_factor(number(row, "Re"), 0) == Approx(number(row, "f")).epsilon(1e-8));
}

TEST_CASE("Turbulent friction is that of Colebrook and White") {
  int compared = 0;
  for (const Row& row : rows_named("colebrook")) {
    if (number(row, "Re") < 4000) continue;  // below, the equation is only nominal
    ++compared;
    CHECK(ours(row) == Approx(number(row, "f")).epsilon(1e-7));
  }
  CHECK(compared > 350);
}

// Formulas that others use in its place stay within what their authors say of them: Blasius 3 % up to Re 100 000, the explicit
// ones 1.5 % (rel_diff_percent of the table).
TEST_CASE("Explicit formulas of others are near") {
  for (const Row& row : rows_named("blasius"))
    if (number(row, "Re") >= 4000) CHECK(ours(row) == Approx(number(row, "f")).epsilon(0.03));
  for (const char* record : {"haaland", "swamee_jain"})
    for (const Row& row : rows_named(record)) CHECK(ours(row) == Approx(number(row, "f")).epsilon(0.015));
}

TEST_CASE("Charts that people read agree within five per cent") {
  for (const Row& row : rows_named("moody_published")) CHECK(ours(row) == Approx(number(row, "published_f")).epsilon(0.05));
}

// Sources end laminar flow between Re 2000 and 2300; up to the highest of them the law is laminar here.
TEST_CASE("Laminar flow ends where the last of the sources ends it") {
  double highest = 0;
  for (const Row& row : rows_named("transition")) highest = std::max(highest, number(row, "Re"));
  CHECK(friction_factor(highest, 1e-3) == Approx(64 / highest));
  CHECK(friction_factor(highest * 1.1, 1e-3) > 64 / (highest * 1.1));
}

TEST_CASE("No row of the table of pipe flow is forgotten") {
  const std::set<std::string> computed = {"laminar", "colebrook", "blasius", "haaland", "swamee_jain", "moody_published", "transition", "oil_tube_drop"};
  for (const Row& row : ferrule::tests::table("pipe_flow")) CHECK(computed.contains(row.at("record")));
}

TEST_CASE("Between laminar and turbulent the friction factor is continuous") {
  CHECK(friction_factor(2300.001, 1e-4) == Approx(64 / 2300.0).epsilon(1e-5));
  CHECK(friction_factor(3999.999, 1e-4) == Approx(friction_factor(4000.001, 1e-4)).epsilon(1e-5));
}

TEST_CASE("Oil tubes drop what the table says") {
  int compared = 0;
  for (const Row& row : rows_named("oil_tube_drop")) {
    if (number(row, "Re") > 2300 && number(row, "Re") < 4000) continue;  // the table has no straight line between
    const std::string& note = row.at("note");
    Bench b;
    b.oil(after(note, "nu="), after(note, "rho="));
    b.tank("t");
    b.pump("P1", "t", "p", 1, after(note, "Q=") * 1000, 1);
    b.add(ElementKind::pipe, "L1", {"p", "t"}, {{P::bore, after(note, "bore ") * mm}, {P::length, 1}, {P::roughness, 0}});
    const Reading r(b);
    REQUIRE(r.point.settled);
    CHECK(r.p("p") == Approx(number(row, "other_value")).epsilon(1e-5));
    ++compared;
  }
  CHECK(compared > 5);
}

TEST_CASE("Height costs rho g h") {
  Bench b;
  b.oil(32, 870);
  b.tank("t");
  b.pump("P1", "t", "p", 1, 1000, 1);
  b.add(ElementKind::pipe, "L1", {"p", "t"}, {{P::bore, 0.05}, {P::length, 0.0}, {P::rise, 10}});
  CHECK(Reading(b).p("p") == Approx(870 * 9.80665 * 10 / 1e5).epsilon(1e-3));  // hydrostatics; 0.853 bar
}
