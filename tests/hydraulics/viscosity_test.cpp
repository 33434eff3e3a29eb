// Viscosity over temperature: values recomputed from ASTM D341 and D2270 (ISO 2909), and examples printed there.
#include <catch2/catch.hpp>

#include "compiler/hydraulics/viscosity.hpp"
#include "hydraulics/bench.hpp"

using namespace ferrule;
using hydraulics::viscosity_at, hydraulics::viscosity_at_100;

TEST_CASE("Viscosity at 100 degC from grade and index") {
  CHECK(viscosity_at_100(15, 100) == Approx(3.40982).epsilon(1e-4));
  CHECK(viscosity_at_100(32, 95) == Approx(5.2896).epsilon(1e-4));
  CHECK(viscosity_at_100(32, 100) == Approx(5.36209).epsilon(1e-4));
  CHECK(viscosity_at_100(32, 150) == Approx(6.26842).epsilon(1e-4));
  CHECK(viscosity_at_100(46, 95) == Approx(6.64392).epsilon(1e-4));
  CHECK(viscosity_at_100(73.30, 92.43) == Approx(8.86).epsilon(1e-4));   // ASTM D2270, example in 5.1.4
  CHECK(viscosity_at_100(22.83, 156.375) == Approx(5.05).epsilon(3e-4));  // ASTM D2270, example in 6.1.4
}

TEST_CASE("Viscosity between and beyond") {
  CHECK(viscosity_at(15, 100, -20) == Approx(484.87).epsilon(1e-3));
  CHECK(viscosity_at(15, 100, 20) == Approx(33.7551).epsilon(1e-3));
  CHECK(viscosity_at(15, 100, 60) == Approx(8.10899).epsilon(1e-3));
  CHECK(viscosity_at(32, 95, 0) == Approx(351.933).epsilon(1e-3));
  CHECK(viscosity_at(32, 100, 50) == Approx(21.4538).epsilon(1e-3));
  CHECK(viscosity_at(32, 150, 80) == Approx(9.61651).epsilon(1e-3));
  CHECK(viscosity_at(46, 95, -10) == Approx(1591.38).epsilon(1e-3));
}

TEST_CASE("An oil by its grade") {
  Circuit circuit;
  CHECK(oil_of(circuit, {}).by_default);
  Fluid fluid;
  fluid.facts.push_back({"grade", "", FactKind::text, {}, "ISO VG 32", Origin::given, {}});
  circuit.fluids.push_back(fluid);
  const Oil oil = oil_of(circuit, {});
  CHECK_FALSE(oil.by_default);
  CHECK(oil.kinematic_viscosity == Approx(21.4538e-6).epsilon(1e-3));  // VG 32, index 100, 50 degC
}
