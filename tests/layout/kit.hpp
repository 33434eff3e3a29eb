// Boxes and ports of some symbols, in modules as the catalogue draws them, and short ways to join them into a problem.
#pragma once

#include <string>
#include <vector>

#include "render/layout/layout.hpp"

namespace kit {

using namespace ferrule::layout;
using ferrule::PortUse;
using ferrule::Side;

struct PinSpec { const char* name; double x, y; Side side; PortUse use = PortUse::main; };

// A drawing in modules: extent, centre, ports.
struct Shape {
  double left, top, right, bottom, cx, cy;
  std::vector<PinSpec> pins;
  bool upright = false;
};

// All poses the symbol may stand in: as drawn, mirrored, and unless upright turned by quarters.
std::vector<Pose> poses(const Shape& shape, int variant = 0);

Shape fixed_pump();
Shape drained_pump();
Shape signal_pump();          // with X on the left
Shape electric_motor();
Shape relief();
Shape unloading();
Shape gauge();
Shape gauge_isolator();
Shape check();
Shape piloted_check();
Shape double_piloted_check();
Shape throttle_check();
Shape counterbalance();
Shape sequence_check();
Shape reducing();
Shape valve(bool two_solenoids = true);
Shape valve_3_2();
Shape section();              // load sensing
Shape cylinder();
Shape single_acting();
Shape load();
Shape hydraulic_motor();
Shape filter();
Shape filter_down();
Shape cooler();
Shape accumulator();
Shape ball_valve();
Shape strainer();
Shape breather();
Shape pressure_switch();
Shape shuttle();
Shape orifice();

struct Maker {
  Problem problem;

  int add(const std::string& id, const std::string& family, Tier tier, int branch, const Shape& shape, std::vector<std::string> rows = {});
  int reservoir(const std::string& id, int entries, std::vector<std::string> rows = {});
  End end(const std::string& at) const;                    // "V1.A"; "T1.0"
  int net(const std::string& id, NetKind kind, const std::vector<std::string>& ends);
  void pilot(int net, const std::string& at) { problem.nets[net].pilot_ends.push_back(end(at)); }
  void text(int net, const std::string& words, const std::vector<std::string>& near);
  void letters(int item, const std::vector<std::string>& pins);
  void code(int item, bool left, const std::string& words);
};

int width_of(const std::string& words);   // half-M, capital height 1.25 M

}  // namespace kit
