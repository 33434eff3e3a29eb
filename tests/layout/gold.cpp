#include "layout/gold.hpp"

namespace gold {

using namespace kit;

namespace {

constexpr auto pressure = NetKind::pressure;
constexpr auto working = NetKind::working;
constexpr auto back = NetKind::return_;
constexpr auto suction = NetKind::suction;
constexpr auto drain = NetKind::drain;
constexpr auto signal = NetKind::pilot;
constexpr auto shaft = NetKind::mechanical;
constexpr auto S = Tier::supply;
constexpr auto C = Tier::control;
constexpr auto D = Tier::modulation;
constexpr auto A = Tier::actuator;

void filter_poses(Maker& m, int item) {
  for (const Pose& pose : poses(filter_down(), 1)) m.problem.items[item].poses.push_back(pose);
}

void valve_texts(Maker& m, int item, const std::string& tag) {
  m.letters(item, {"A", "B", "P", "T"});
  m.code(item, true, tag + "a"), m.code(item, false, tag + "b");
}

int motor(Maker& m, const std::string& id) {
  const int item = m.add(id, "prime-mover", S, -1, electric_motor(), {"5.5 kW", "1450 r/min"});
  m.problem.items[item].prime_mover = true;
  return item;
}

void reservoir(Maker& m, int entries) {
  m.reservoir("T1", entries, {"120 L", "ISO VG 46"});
  const int strainer_ = m.add("ST1", "filter", S, -1, strainer(), {"125 um"});
  m.problem.items[strainer_].in_trough = true, m.problem.items[strainer_].host = m.end("T1.0").item;
  const int breather_ = m.add("BF1", "breather", S, -1, breather(), {"10 um"});
  m.problem.items[breather_].on_cover = true, m.problem.items[breather_].host = m.end("T1.0").item;
}

Problem veneer() {
  Maker m;
  reservoir(m, 3);
  m.add("P1", "pump", S, -1, fixed_pump(), {"14 cm3/r"});
  motor(m, "M1");
  m.add("RV1", "relief", S, -1, relief(), {"130 bar"});
  m.add("GI1", "valve", S, -1, gauge_isolator(), {"damped"});
  m.add("G1", "gauge", S, -1, gauge(), {"0...250 bar"});
  filter_poses(m, m.add("F1", "filter", S, -1, filter(), {"10 um", "2 bar"}));
  valve_texts(m, m.add("V1", "directional", C, -1, valve(), {"25 L/min at 3 bar"}), "V1");
  const int sq2 = m.add("SQ2", "sequence", D, -1, sequence_check(), {"35 bar"});
  const int sq1 = m.add("SQ1", "sequence", D, -1, sequence_check(), {"60 bar"});
  m.letters(sq2, {"Y"}), m.letters(sq1, {"Y"});
  m.letters(m.add("C1", "cylinder", A, -1, cylinder(), {"clamp", "50/28 x 120"}), {"A", "B"});
  m.letters(m.add("C2", "cylinder", A, -1, cylinder(), {"press", "80/45 x 250"}), {"A", "B"});
  m.net("shaft", shaft, {"P1.shaft", "M1.shaft"});
  m.text(m.net("suction", suction, {"P1.S", "ST1.OUT"}), "L1 hose 25", {"P1.S"});
  m.text(m.net("P", pressure, {"P1.P", "RV1.P", "GI1.1", "V1.P"}), "L2 tube 12", {"V1.P"});
  m.net("gauge", pressure, {"GI1.2", "G1.P"});
  m.net("relief", back, {"RV1.T", "T1.1"});
  m.text(m.net("T", back, {"V1.T", "F1.IN"}), "L5 tube 20", {"V1.T"});
  m.net("filtered", back, {"F1.OUT", "T1.2"});
  m.text(m.net("A", working, {"V1.A", "C1.A", "SQ1.IN"}), "L3 tube 12", {"V1.A"});
  m.text(m.net("B", working, {"V1.B", "C2.B", "SQ2.IN"}), "L4 tube 12", {"V1.B"});
  m.net("A2", working, {"SQ1.OUT", "C2.A"});
  m.net("B1", working, {"SQ2.OUT", "C1.B"});
  m.text(m.net("Y", drain, {"SQ1.Y", "SQ2.Y", "T1.0"}), "L6 tube 8", {"T1.0"});
  return m.problem;
}

Problem baler() {
  Maker m;
  reservoir(m, 5);
  m.add("P2", "pump", S, -1, fixed_pump(), {"0.60 in3/r"});
  m.add("P1", "pump", S, -1, fixed_pump(), {"2.60 in3/r"});
  motor(m, "M1");
  m.add("RV1", "relief", S, -1, relief(), {"2300 psi"});
  m.add("RV2", "relief", S, -1, relief(), {"900 psi"});
  m.add("UV1", "relief", S, -1, unloading(), {"650 psi"});
  m.add("CV1", "check", S, -1, check(), {"5 psi"});
  m.add("GI1", "valve", S, -1, gauge_isolator(), {"damped"});
  m.add("G1", "gauge", S, -1, gauge(), {"0...4000 psi"});
  filter_poses(m, m.add("F1", "filter", S, -1, filter(), {"25 um", "25 psi"}));
  valve_texts(m, m.add("V1", "directional", C, -1, valve(), {"35 gpm at 30 psi"}), "V1");
  m.letters(m.add("CB1", "modulation", D, -1, counterbalance(), {"170 psi", "4:1"}), {"C", "V", "X"});
  m.letters(m.add("C1", "cylinder", A, -1, cylinder(), {"bale, rod down", "5/3 x 48 in"}), {"A", "B"});
  m.add("load", "load", A, -1, load());
  m.net("shaft", shaft, {"P1.shaft", "M1.shaft"});
  m.net("shaft2", shaft, {"P2.shaft", "P1.shaft2"});
  m.net("rod", shaft, {"C1.rod", "load.rod"});
  m.text(m.net("suction", suction, {"P1.S", "P2.S", "ST1.OUT"}), "L1 hose 2.5 in", {"ST1.OUT"});
  m.text(m.net("P", pressure, {"P2.P", "RV1.P", "GI1.1", "V1.P", "CV1.OUT", "UV1.X"}), "L2 tube 1.0 in", {"V1.P"});
  m.pilot(4, "UV1.X");
  m.net("low", pressure, {"P1.P", "CV1.IN", "RV2.P", "UV1.P"});
  m.net("gauge", pressure, {"GI1.2", "G1.P"});
  m.net("relief1", back, {"RV1.T", "T1.1"});
  m.net("relief2", back, {"RV2.T", "T1.2"});
  m.net("unload", back, {"UV1.T", "T1.3"});
  m.text(m.net("T", back, {"V1.T", "F1.IN"}), "L5 tube 2.0 in", {"V1.T"});
  m.net("filtered", back, {"F1.OUT", "T1.4"});
  m.pilot(m.net("A", working, {"V1.A", "C1.A", "CB1.X"}), "CB1.X");
  m.text(12, "L3 tube 1.25 in", {"V1.A"});
  m.text(m.net("B", working, {"V1.B", "CB1.V"}), "L4 tube 1.0 in", {"V1.B"});
  m.net("B2", working, {"CB1.C", "C1.B"});
  return m.problem;
}

Problem platform() {
  Maker m;
  reservoir(m, 4);
  m.add("P1", "pump", S, 0, signal_pump(), {"0...45 cm3/r", "dp LS 18 bar", "210 bar"});
  motor(m, "E1");
  m.add("RV1", "relief", S, 0, relief(), {"235 bar"});
  m.add("GI1", "valve", S, 0, gauge_isolator(), {"damped"});
  m.add("G1", "gauge", S, 0, gauge(), {"0...315 bar"});
  filter_poses(m, m.add("F1", "filter", S, 0, filter(), {"10 um", "2 bar"}));
  for (const char* tag : {"V1", "V2"}) m.letters(m.add(tag, "section", C, tag[1] - '0', section(), {"60 L/min at 4 bar"}), {"A", "B", "P", "T", "LS"});
  m.add("SH1", "shuttle", C, 1, shuttle());
  m.letters(m.add("CB1", "modulation", D, 1, counterbalance(), {"98 bar", "4:1"}), {"C", "V", "X"});
  m.letters(m.add("C1", "cylinder", A, 1, cylinder(), {"boom", "90/63 x 600"}), {"A", "B"});
  m.letters(m.add("HM1", "motor", A, 2, hydraulic_motor(), {"125 cm3/r"}), {"A", "B", "L"});
  m.add("RV2", "relief", D, 2, relief(), {"130 bar"});
  m.add("RV3", "relief", D, 2, relief(), {"130 bar"});
  m.net("shaft", shaft, {"P1.shaft", "E1.shaft"});
  m.text(m.net("suction", suction, {"P1.S", "ST1.OUT"}), "L1 hose 50", {"P1.S"});
  m.text(m.net("pump-drain", drain, {"P1.L", "T1.0"}), "L8 hose 12", {"P1.L"});
  m.text(m.net("P", pressure, {"P1.P", "V2.P", "V1.P", "GI1.1", "RV1.P"}), "L2 hose 20", {"V1.P", "V2.P"});
  m.net("gauge", pressure, {"GI1.2", "G1.P"});
  m.net("relief", back, {"RV1.T", "T1.1"});
  m.text(m.net("T", back, {"V1.T", "F1.IN", "V2.T"}), "L7 hose 32", {"F1.IN"});
  m.net("filtered", back, {"F1.OUT", "T1.2"});
  m.net("LS1", signal, {"V1.LS", "SH1.1"});
  m.net("LS2", signal, {"V2.LS", "SH1.2"});
  m.text(m.net("LS", signal, {"SH1.OUT", "P1.X"}), "L10 hose 6", {"P1.X"});
  m.text(m.net("A1", working, {"V1.A", "CB1.V"}), "L3 hose 16", {"V1.A"});
  m.net("A1c", working, {"CB1.C", "C1.A"});
  const int b1 = m.net("B1", working, {"V1.B", "C1.B", "CB1.X"});
  m.pilot(b1, "CB1.X");
  m.text(b1, "L4 hose 16", {"V1.B"});
  m.text(m.net("A2", working, {"V2.A", "HM1.A", "RV2.P", "RV3.T"}), "L5 hose 12", {"V2.A"});
  m.text(m.net("B2", working, {"V2.B", "HM1.B", "RV2.T", "RV3.P"}), "L6 hose 12", {"V2.B"});
  m.text(m.net("motor-drain", drain, {"HM1.L", "T1.3"}), "L9 hose 10", {"HM1.L"});
  return m.problem;
}

Problem pusher() {
  Maker m;
  reservoir(m, 3);
  m.add("P1", "pump", S, -1, fixed_pump(), {"10 cm3/r"});
  motor(m, "M1");
  m.add("RV1", "relief", S, -1, relief(), {"90 bar"});
  m.add("GI1", "valve", S, -1, gauge_isolator(), {"damped"});
  m.add("G1", "gauge", S, -1, gauge(), {"0...160 bar"});
  filter_poses(m, m.add("F1", "filter", S, -1, filter(), {"10 um", "2 bar"}));
  valve_texts(m, m.add("V1", "directional", C, -1, valve(), {"30 L/min at 3 bar"}), "V1");
  m.letters(m.add("V2", "modulation", D, -1, valve_3_2(), {"25 L/min at 2 bar"}), {"A", "P", "T"});
  m.letters(m.add("C1", "cylinder", A, -1, cylinder(), {"push", "80/56 x 600"}), {"A", "B"});
  m.net("shaft", shaft, {"P1.shaft", "M1.shaft"});
  m.text(m.net("suction", suction, {"P1.S", "ST1.OUT"}), "L1 hose 25", {"P1.S"});
  m.text(m.net("P", pressure, {"P1.P", "V1.P", "RV1.P", "GI1.1"}), "L2 tube 12", {"V1.P"});
  m.net("gauge", pressure, {"GI1.2", "G1.P"});
  m.net("relief", back, {"RV1.T", "T1.1"});
  m.text(m.net("T", back, {"V1.T", "F1.IN"}), "L5 tube 20", {"V1.T"});
  m.net("filtered", back, {"F1.OUT", "T1.2"});
  m.text(m.net("A", working, {"V1.A", "C1.A", "V2.T"}), "L3 tube 14", {"V1.A"});
  m.net("rod-side", working, {"C1.B", "V2.A"});
  m.text(m.net("B", working, {"V2.P", "V1.B"}), "L4 tube 12", {"V1.B"});
  return m.problem;
}

void slab_supply(Maker& m) {
  m.reservoir("0Z1", 8, {"250 L", "HLP ISO VG 46"});
  const int host = m.end("0Z1.0").item;
  const auto hosted = [&](int item, bool cover) { (cover ? m.problem.items[item].on_cover : m.problem.items[item].in_trough) = true, m.problem.items[item].host = host; };
  hosted(m.add("0Z7", "filter", S, 0, strainer(), {"125 um"}), false);
  hosted(m.add("0Z6", "breather", S, 0, breather(), {"10 um"}), true);
  hosted(m.add("0S1", "switch", S, 0, {-1, 0, 5, 6, 2, 2, {{"P", 2, 6, Side::below}}, true}, {"min"}), true);
  m.add("0P1", "pump", S, 0, drained_pump(), {"0...63 cm3/r", "160 bar"});
  motor(m, "0M1");
  m.add("0V2", "check", S, 0, check(), {"0.5 bar"});
  m.add("0V1", "relief", S, 0, relief(), {"190 bar"});
  m.add("0V3", "valve", S, 0, gauge_isolator());
  m.add("0Z2", "gauge", S, 0, gauge(), {"0...250 bar"});
  m.add("0V4", "shut-off", S, 0, ball_valve());
  m.add("0Z3", "accumulator", S, 0, accumulator(), {"10 L", "p0 100 bar", "max 210 bar"});
  m.add("0V5", "relief", S, 0, relief(), {"200 bar"});
  m.add("0V6", "shut-off", S, 0, ball_valve());
  m.add("0Z4", "cooler", S, 0, cooler(), {"6 kW"});
  filter_poses(m, m.add("0Z5", "filter", S, 0, filter(), {"10 um", "1.7 bar"}));
  m.net("shaft", shaft, {"0P1.shaft", "0M1.shaft"});
  m.text(m.net("suction", suction, {"0P1.S", "0Z7.OUT"}), "35 x 2", {"0P1.S"});
  m.text(m.net("pump-drain", drain, {"0P1.L", "0Z1.0"}), "12 x 1.5", {"0P1.L"});
  m.net("pump", pressure, {"0P1.P", "0V2.IN", "0V1.P"});
  m.net("relief", back, {"0V1.T", "0Z1.1"});
  m.net("gauge", pressure, {"0V3.2", "0Z2.P"});
  m.net("accumulator", pressure, {"0V4.2", "0V6.2", "0Z3.P", "0V5.P"});
  m.net("block-drain", back, {"0V5.T", "0V6.1", "0Z1.2"});
  m.net("cooled", back, {"0Z4.OUT", "0Z5.IN"});
  m.net("filtered", back, {"0Z5.OUT", "0Z1.3"});
}

void slab_branches(Maker& m) {
  const auto flow = std::vector<std::string>{"40 L/min at 5 bar"};
  m.letters(m.add("1V1", "reducing", C, 1, reducing(), {"60 bar"}), {"Y"});
  valve_texts(m, m.add("1V2", "directional", C, 1, valve(), flow), "1Y");
  m.add("1V3", "modulation", D, 1, piloted_check());
  m.add("1S1", "switch", D, 1, pressure_switch(), {"50 bar rising"});
  m.letters(m.add("1A1", "cylinder", A, 1, cylinder(), {"clamp", "63/36 x 80"}), {"A", "B"});
  valve_texts(m, m.add("2V1", "directional", C, 2, valve(), flow), "2Y");
  m.letters(m.add("2V2", "modulation", D, 2, counterbalance(), {"90 bar", "4:1"}), {"C", "V", "X"});
  m.letters(m.add("2A1", "cylinder", A, 2, cylinder(), {"lift", "80/45 x 600"}), {"A", "B"});
  m.add("load", "load", A, 2, load(), {"12 kN"});
  valve_texts(m, m.add("3V1", "directional", C, 3, valve(), flow), "3Y");
  m.add("3V2", "relief", D, 3, relief(), {"140 bar"});
  m.add("3V3", "relief", D, 3, relief(), {"140 bar"});
  m.letters(m.add("3A1", "motor", A, 3, hydraulic_motor(), {"turn", "160 cm3/r"}), {"A", "B", "L"});
  valve_texts(m, m.add("4V1", "directional", C, 4, valve(), flow), "4Y");
  m.add("4V2", "modulation", D, 4, throttle_check());
  m.add("4V3", "modulation", D, 4, throttle_check());
  m.letters(m.add("4A1", "cylinder", A, 4, cylinder(), {"feed", "50/28 x 900"}), {"A", "B"});
  const int valve5 = m.add("5V1", "directional", C, 5, valve_3_2(), {"12 L/min at 5 bar"});
  m.letters(valve5, {"A", "P", "T"}), m.code(valve5, true, "5Y1");
  m.add("5V2", "modulation", D, 5, orifice(), {"1.2"});
  m.letters(m.add("5A1", "cylinder", A, 5, single_acting(), {"eject", "32/18 x 60"}), {"A"});
}

void slab_rails(Maker& m) {
  m.text(m.net("P", pressure, {"0V2.OUT", "5V1.P", "0V3.1", "0V4.1", "1V1.IN", "2V1.P", "3V1.P", "4V1.P"}), "P 25 x 3",
         {"5V1.P", "1V1.IN", "2V1.P", "3V1.P", "4V1.P"});
  m.text(m.net("T", back, {"5V1.T", "1V2.T", "2V1.T", "3V1.T", "4V1.T", "0Z4.IN"}), "T 35 x 2", {"0Z4.IN"});
}

void slab_lanes(Maker& m) {
  m.net("rod", shaft, {"2A1.rod", "load.rod"});
  m.net("1P", pressure, {"1V1.OUT", "1V2.P"});
  m.net("1Y", drain, {"1V1.Y", "0Z1.4"});
  m.text(m.net("1A", working, {"1V2.A", "1V3.IN"}), "16 x 2", {"1V2.A"});
  m.net("1C", working, {"1V3.OUT", "1A1.A", "1S1.P"});
  m.pilot(m.net("1B", working, {"1V2.B", "1A1.B", "1V3.X"}), "1V3.X");
  m.text(m.net("2A", working, {"2V1.A", "2V2.V"}), "16 x 2", {"2V1.A"});
  m.net("2C", working, {"2V2.C", "2A1.A"});
  m.pilot(m.net("2B", working, {"2V1.B", "2A1.B", "2V2.X"}), "2V2.X");
  m.text(m.net("3A", working, {"3V1.A", "3A1.A", "3V2.P", "3V3.T"}), "20 x 2", {"3V1.A"});
  m.net("3B", working, {"3V1.B", "3A1.B", "3V2.T", "3V3.P"});
  m.net("3L", drain, {"3A1.L", "0Z1.5"});
  m.text(m.net("4A", working, {"4V1.A", "4V2.OUT"}), "16 x 2", {"4V1.A"});
  m.net("4C", working, {"4V2.IN", "4A1.A"});
  m.net("4B", working, {"4V1.B", "4V3.OUT"});
  m.net("4D", working, {"4V3.IN", "4A1.B"});
  m.text(m.net("5A", working, {"5V1.A", "5V2.1"}), "10 x 1.5", {"5V1.A"});
  m.net("5C", working, {"5V2.2", "5A1.A"});
}

Problem slab() {
  Maker m;
  slab_supply(m);
  slab_branches(m);
  slab_rails(m);
  slab_lanes(m);
  m.problem.groups.push_back({"power unit", "Power unit", -1});
  for (Item& item : m.problem.items)
    if (item.branch <= 0) item.group = 0;
  return m.problem;
}

}  // namespace

std::vector<Sheet> sheets() {
  return {{"veneer-clamp-press", veneer(), 1, 9, 12.1}, {"card-baler", baler(), 0, 12, 11.0},
          {"picking-platform", platform(), 3, 19, 6.1}, {"crate-pusher", pusher(), 0, 7, 7.1},
          {"slab-station", slab(), 4, 24, 12.9}};
}

}  // namespace gold
