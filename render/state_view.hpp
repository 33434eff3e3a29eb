// What a sheet shows of one state: where the valves stand, how every point is, what flows.
#pragma once

#include <string>
#include <vector>

#include "compiler/figures/book.hpp"

namespace ferrule {

struct StateView {
  std::string name;                     // "squeeze"
  std::vector<std::int16_t> position;   // by part; -1 for parts without positions
  std::vector<Condition> condition;     // by node
  std::vector<double> pressure;         // by node, Pa gauge; NaN where there is none
  std::vector<double> given;            // by port, m3/s that its part gives to the line there; 0 where nothing is known
};

StateView view_of(const working::Book& book, std::size_t state);

}  // namespace ferrule
