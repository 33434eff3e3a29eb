// Pipe friction against published and independently computed values: tests/reference/pipe_flow.csv names each source.
#include <catch2/catch.hpp>

#include <sstream>

#include "compiler/hydraulics/laws.hpp"
#include "hydraulics/bench.hpp"
#include "support/files.hpp"

using namespace bench;

namespace {

// Fields of a line of comma-separated values; quotes keep commas.
std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (char c : line) {
    if (c == '"') quoted = !quoted;
    else if (c == ',' && !quoted) fields.emplace_back();
    else fields.back() += c;
  }
  return fields;
}

std::vector<std::vector<std::string>> rows_named(const std::string& record) {
  std::vector<std::vector<std::string>> rows;
  for (const std::string& line : ferrule::tests::lines_of(ferrule::tests::project_text("tests/reference/pipe_flow.csv")))
    if (line.rfind(record + ",", 0) == 0) rows.push_back(fields_of(line));
  return rows;
}

double after(const std::string& text, const std::string& word) { return std::stod(text.substr(text.find(word) + word.size())); }

}  // namespace

TEST_CASE("Laminar friction is 64/Re") {
  const auto rows = rows_named("laminar");
  REQUIRE(rows.size() == 13);
  for (const auto& row : rows) CHECK(hydraulics::friction_factor(std::stod(row[1]), 0) == Approx(std::stod(row[3])).epsilon(1e-8));
}

TEST_CASE("Turbulent friction is that of Colebrook and White") {
  int compared = 0;
  for (const auto& row : rows_named("colebrook")) {
    const double reynolds = std::stod(row[1]);
    if (reynolds < 4000) continue;  // below, the equation is only nominal
    ++compared;
    CHECK(hydraulics::friction_factor(reynolds, std::stod(row[2])) == Approx(std::stod(row[3])).epsilon(1e-7));
  }
  CHECK(compared > 350);
}

TEST_CASE("Charts that people read agree within five per cent") {
  for (const auto& row : rows_named("moody_published"))
    CHECK(hydraulics::friction_factor(std::stod(row[1]), std::stod(row[2])) == Approx(std::stod(row[7])).epsilon(0.05));
}

TEST_CASE("Between laminar and turbulent the friction factor is continuous") {
  CHECK(hydraulics::friction_factor(2300.001, 1e-4) == Approx(64 / 2300.0).epsilon(1e-5));
  CHECK(hydraulics::friction_factor(3999.999, 1e-4) == Approx(hydraulics::friction_factor(4000.001, 1e-4)).epsilon(1e-5));
}

TEST_CASE("Oil tubes drop what the table says") {
  int compared = 0;
  for (const auto& row : rows_named("oil_tube_drop")) {
    const double reynolds = std::stod(row[1]);
    if (reynolds > 2300 && reynolds < 4000) continue;  // the table has no straight line between
    Bench b;
    b.oil(after(row[11], "nu="), after(row[11], "rho="));
    b.tank("t");
    b.pump("P1", "t", "p", 1, after(row[11], "Q=") * 1000, 1);
    b.add(ElementKind::pipe, "L1", {"p", "t"}, {{P::bore, after(row[11], "bore ") * mm}, {P::length, 1}, {P::roughness, 0}});
    const Reading r(b);
    REQUIRE(r.point.settled);
    CHECK(r.p("p") == Approx(std::stod(row[4])).epsilon(1e-5));
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
