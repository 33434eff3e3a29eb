// What touches what on one sheet. Internal to render/readback.
#pragma once

#include <numeric>
#include <vector>

#include "render/readback/netlist.hpp"

namespace ferrule::readback {

// Sets that grow together; the least member names a set.
struct Joined {
  std::vector<std::size_t> above;

  explicit Joined(std::size_t count) : above(count) { std::iota(above.begin(), above.end(), std::size_t{0}); }
  std::size_t root(std::size_t member) {
    while (above[member] != member) member = above[member] = above[above[member]];
    return member;
  }
  void join(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    above[std::max(a, b)] = std::min(a, b);
  }
};

// A port of the sheet: which symbol, which of its ports.
struct PortOfSheet {
  std::size_t symbol = 0, port = 0;
};

struct Contacts {
  struct Group {
    std::vector<PortOfSheet> ports;
    std::vector<Point> meetings;
    bool inked = false;              // some line belongs to it
  };
  std::vector<Group> groups;
  std::vector<Fault> faults;
};

// Of the oil lines, or of the shafts.
Contacts contacts_on(const Sheet& sheet, std::size_t index, bool shafts);

}  // namespace ferrule::readback
