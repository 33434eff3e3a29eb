#include <catch2/catch.hpp>

#include <iostream>

#include "layout/gold.hpp"
#include "layout/judge.hpp"
#include "layout/picture.hpp"

using namespace ferrule::layout;

TEST_CASE("hand-laid sheets: no fault, and close to the hand's figures") {
  for (const gold::Sheet& sheet : gold::sheets()) {
    INFO(sheet.name);
    const Layout layout = lay_out(sheet.problem);
    picture::write_if_asked(sheet.name, sheet.problem, layout);
    const auto faults = judge::faults(sheet.problem, layout);
    for (const std::string& fault : faults) UNSCOPED_INFO(fault);
    CHECK(faults.empty());
    CHECK(violations(sheet.problem, layout).empty());
    for (const std::string& note : layout.notes) std::cout << note << "\n";
    const judge::Figures f = judge::figures(sheet.problem, layout);
    std::cout << sheet.name << ": crossings " << f.crossings << " (" << sheet.crossings << "), bends " << f.bends << " (" << sheet.bends
              << "), area " << f.area_ratio << " (" << sheet.area_ratio << "), leaders " << f.leaders << "\n";
  }
}
