// Viscosity over temperature: every row of tests/reference/fluids.csv, which names its source. ASTM D341 and D2270 (ISO 2909),
// grades of ISO 3448. What is not computed stands with its reason in tests/reference/not_computed.csv.
#include <catch2/catch.hpp>

#include <set>

#include "compiler/hydraulics/viscosity.hpp"
#include "hydraulics/bench.hpp"
#include "support/table.hpp"

using namespace ferrule;
using hydraulics::viscosity_at, hydraulics::viscosity_at_100;
using tests::after, tests::number, tests::Row;

namespace {

// mm2/s of an oil as a text states it.
double stated(const std::string& grade, double index, double celsius) {
  Circuit circuit;
  Fluid fluid;
  fluid.facts.push_back({"grade", "", FactKind::text, {}, grade, Origin::given, {}});
  fluid.facts.push_back({"index", "", FactKind::quantity, {{index, dimension::none}}, "", Origin::given, {}});
  fluid.facts.push_back({"temperature", "", FactKind::quantity, {{celsius + 273.15, dimension::temperature}}, "", Origin::given, {}});
  circuit.fluids.push_back(fluid);
  return oil_of(circuit, {}).kinematic_viscosity * 1e6;
}

// "VG 32 midpoint, VI 95"
double of_named(const Row& row, double celsius) {
  const std::string& name = row.at("name");
  return stated("ISO " + name.substr(0, name.find(" midpoint")), after(name, "VI "), celsius);
}

}  // namespace

TEST_CASE("A grade is its viscosity at 40 degC") {
  const auto rows = tests::table("fluids", "iso_vg");
  REQUIRE(rows.size() == 20);
  for (const Row& row : rows) {
    INFO(row.at("name"));
    const double ours = stated("ISO " + row.at("name"), 100, 40);
    CHECK(ours == Approx(number(row, "value")).epsilon(1e-3));
    CHECK((ours > number(row, "min") && ours < number(row, "max")));
  }
}

TEST_CASE("The examples of the viscosity index come back") {
  const auto rows = tests::table("fluids", "vi_example");
  REQUIRE(rows.size() == 3);
  for (const Row& row : rows) {
    INFO(row.at("name"));
    CHECK(viscosity_at_100(after(row.at("inputs"), "U="), number(row, "value")) == Approx(after(row.at("inputs"), "Y=")).epsilon(2e-3));  // an index printed to 3 digits
  }
}

TEST_CASE("The table of the viscosity index is that of the standard") {
  const auto rows = tests::table("fluids", "vi_coefficients");
  REQUIRE(rows.size() == 16);
  for (const Row& row : rows) {
    const std::string& in = row.at("inputs");
    const double y = number(row, "min") * 1.02;  // within the row
    const double low = after(in, "a=") * y * y + after(in, "b=") * y + after(in, "c="), high = after(in, "d=") * y * y + after(in, "e=") * y + after(in, "f=");
    INFO(row.at("name"));
    CHECK(viscosity_at_100(low, 0) == Approx(y).epsilon(1e-6));
    CHECK(viscosity_at_100(high, 100) == Approx(y).epsilon(1e-6));
  }
}

TEST_CASE("Grade and index give the viscosity at every temperature") {
  std::size_t compared = 0;
  for (const char* record : {"vi_solved", "d341_value"})
    for (const Row& row : tests::table("fluids", record)) {
      INFO(row.at("name") << " at " << row.at("temperature_C"));
      CHECK(of_named(row, number(row, "temperature_C")) == Approx(number(row, "value")).epsilon(1e-3));
      ++compared;
    }
  CHECK(compared == 168);
}

// 32 and 5.4 mm2/s are an oil of index 102.6 by the same standard (the index comes out of the 100 degC value by bisection here).
TEST_CASE("Two points give a third") {
  double index = 90;
  while (viscosity_at_100(32, index) < 5.4) index += 1e-3;
  const auto rows = tests::table("fluids", "d341_example");
  REQUIRE(rows.size() == 2);
  CHECK(viscosity_at(32, index, 80) == Approx(number(rows[1], "value")).epsilon(1e-3));
  CHECK(viscosity_at(32, index, 80) == Approx(number(rows[0], "value")).epsilon(5e-3));  // the simple form, without the small term
}

TEST_CASE("The density taken where none is stated is that of mineral oils") {
  const Oil none = oil_of({}, {});
  for (const Row& row : tests::table("fluids", "typical"))
    if (row.at("quantity") == "density" && row.at("name").starts_with("mineral oil VG") && after(row.at("name"), "VG ") >= 22)
      CHECK(none.density == Approx(number(row, "value")).epsilon(0.03));
}

TEST_CASE("No row of the table of fluids is forgotten") {
  const std::set<std::string> computed = {"iso_vg", "vi_example", "vi_coefficients", "vi_solved", "d341_value", "d341_example"};
  std::set<std::string> listed;
  for (const Row& row : tests::table("not_computed"))
    if (row.at("table") == "fluids") listed.insert(row.at("row"));
  for (const Row& row : tests::table("fluids")) {
    INFO(row.at("record") << " " << row.at("name") << " " << row.at("quantity"));
    CHECK((computed.contains(row.at("record")) || listed.contains(row.at("record") + " " + row.at("quantity"))));
  }
}

