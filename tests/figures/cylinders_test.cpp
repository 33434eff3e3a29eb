// Areas and ratios of all bores and rods of ISO 3320 (tests/reference/cylinders.csv), as `explain` works them out.
#include <catch2/catch.hpp>

#include <set>

#include "figures/book_of.hpp"
#include "support/table.hpp"

using namespace ferrule;
using tests::number, tests::Open, tests::Row;

namespace {

// mm2 on the board of a cylinder's force: "A_A", "A_B".
double area(const std::string& bore, const std::string& rod, const char* symbol) {
  const Open open("reservoir 0Z1\nfixed-pump 0P1 { displacement 1 cm3/rev, speed 1000 rpm }\nrelief-valve 0V1 { setting 100 bar }\n"
                  "cylinder 1A1 { bore " + bore + " mm, rod " + rod + " mm, stroke 100 mm, friction 0 N }\n"
                  "suction 0Z1 -- 0P1.S\npressure 0P1.P -- 0V1.P -- 1A1.A\nreturn 0V1.T -- 1A1.B -- 0Z1\ncycle { step press { 1A1 presses } }\n");
  for (const auto& value : open.result("1A1.force", "press").values)
    if (value.symbol == symbol) return value.si.value() * 1e6;
  FAIL("no " << symbol);
  return 0;
}

}  // namespace

TEST_CASE("areas and ratios of standard bores and rods") {
  std::set<std::string> computed = {"bore", "rod", "bore_rod"}, listed;
  for (const Row& row : tests::table("cylinders", "bore"))
    CHECK(area(row.at("bore_mm"), std::to_string(0.5 * number(row, "bore_mm")), "A_A") == Approx(number(row, "area_bore_mm2")).epsilon(1e-8));
  for (const Row& row : tests::table("cylinders", "rod")) {
    const double bore = 2 * number(row, "rod_mm");
    CHECK(area(std::to_string(bore), row.at("rod_mm"), "A_A") - area(std::to_string(bore), row.at("rod_mm"), "A_B") ==
          Approx(number(row, "area_rod_mm2")).epsilon(1e-8));
  }
  for (const Row& row : tests::table("cylinders", "bore_rod")) {
    INFO(row.at("bore_mm") << "/" << row.at("rod_mm"));
    const double piston = area(row.at("bore_mm"), row.at("rod_mm"), "A_A"), annulus = area(row.at("bore_mm"), row.at("rod_mm"), "A_B");
    CHECK(piston == Approx(number(row, "area_bore_mm2")).epsilon(1e-8));
    CHECK(annulus == Approx(number(row, "area_annulus_mm2")).epsilon(1e-8));
    CHECK(piston / annulus == Approx(number(row, "area_ratio")).epsilon(1e-6));
  }
  for (const Row& row : tests::table("not_computed"))
    if (row.at("table") == "cylinders") listed.insert(row.at("row"));
  for (const Row& row : tests::table("cylinders")) {
    INFO(row.at("record"));
    CHECK((computed.contains(row.at("record")) || listed.contains(row.at("record"))));
  }
}
