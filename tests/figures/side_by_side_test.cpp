// The comparison a lesson on centres turns on: one power unit behind a closed, an open and a tandem centre.
#include <catch2/catch.hpp>

#include <sstream>

#include "compiler/figures/side_by_side.hpp"
#include "figures/book_of.hpp"
#include "support/files.hpp"

using namespace ferrule;
using tests::Open;
using working::Compared, working::TableOf;

namespace {

Open pair(const std::string& name) { return Open(tests::project_text("samples/pairs/" + name + ".fer")); }

// "5.108 kW" or "64.44 W" in W, "118.9 bar" in bar.
double number_in(const std::string& cell) {
  std::istringstream text(cell);
  double value = 0;
  std::string unit;
  REQUIRE((text >> value >> unit));
  return unit == "kW" ? 1000 * value : value;
}

constexpr double as_printed = 1e-3;  // cells have four digits

}  // namespace

TEST_CASE("idle power of closed, open and tandem centre stands side by side") {
  const Open closed = pair("idle-over-relief"), open = pair("idle-through-open-centre"), tandem = pair("idle-through-centre");
  const std::vector<Compared> circuits{{"closed", closed.book.get()}, {"open", open.book.get()}, {"tandem", tandem.book.get()}};
  const std::vector<TableOf> tables = working::side_by_side(circuits, "waiting");
  REQUIRE(tables.size() == 1);
  const auto& rows = tables.front().rows;
  REQUIRE(rows.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) CHECK(rows[i][0] == circuits[i].name);

  // Pump: q_th = 16 cm3 x 1450 /min, q = 0.92 q_th, P = dp q_th / eta_m (ISO 4391, derived volumetric and mechanical efficiency).
  const double q_th = 0.016 * 1450, q = 0.92 * q_th;  // L/min
  const auto shaft = [&](double bar) { return bar * 1e5 * q_th / 60000 / 0.90; };
  // Closed: all of it over the relief valve, straight from 110 bar to 120 bar at 24 L/min.
  const double over_relief = 110 + 10 * q / 24;
  CHECK(number_in(rows[0][1]) == Approx(over_relief).epsilon(as_printed));
  CHECK(number_in(rows[0][2]) == Approx(shaft(over_relief)).epsilon(as_printed));
  // Open and tandem: valve (square law, 3 bar at 40 L/min) and filter (straight, 0.4 bar at 60 L/min) at the least, and the tubes.
  const double through_centre = 3 * (q / 40) * (q / 40) + 0.4 * q / 60;
  for (std::size_t i : {1, 2}) {
    CHECK(number_in(rows[i][1]) > through_centre);
    CHECK(number_in(rows[i][2]) == Approx(shaft(number_in(rows[i][1]))).epsilon(0.01));  // suction line: 3 mbar more than at the outlet
    CHECK(number_in(rows[i][2]) < 0.02 * number_in(rows[0][2]));
  }
  // Idling does no work: what goes in at the shaft is heat (first law).
  for (const auto& row : rows) {
    CHECK(number_in(row[3]) == 0);
    CHECK(row[4] == row[2]);
  }
  CHECK(rows[0][5] == "100 %");
}

TEST_CASE("states are compared by name, the cycle by its means") {
  const Open closed = pair("idle-over-relief"), tandem = pair("idle-through-centre");
  const std::vector<Compared> circuits{{"closed", closed.book.get()}, {"tandem", tandem.book.get()}};
  std::vector<std::string> titles;
  for (const TableOf& table : working::side_by_side(circuits, "")) titles.push_back(table.title);
  CHECK(titles == std::vector<std::string>{"side by side: rest", "side by side: out", "side by side: in", "side by side: waiting", "side by side: mean of the cycle"});
}

TEST_CASE("nothing stands beside one circuit, and no number beside a state that has none") {
  const Open closed = pair("idle-over-relief");
  const Open shut_in(tests::project_text("tests/figures/bad/closed-box.fer"));
  const std::vector<Compared> alone{{"closed", closed.book.get()}}, both{{"closed", closed.book.get()}, {"shut in", shut_in.book.get()}};
  CHECK(working::side_by_side(alone, "").empty());
  const std::vector<TableOf> tables = working::side_by_side(both, "rest");
  REQUIRE(tables.size() == 1);
  REQUIRE(tables.front().rows.size() == 2);
  const auto& row = tables.front().rows[1];
  for (std::size_t column : {1, 2, 4, 5}) CHECK(row[column] == "-");  // pressure, shaft power, heat, share
}
