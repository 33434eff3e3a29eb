// A circuit as text, sized.
#pragma once

#include <catch2/catch.hpp>

#include "checks/sizing/sizing.hpp"
#include "compiler/driver/disk.hpp"
#include "figures/book_of.hpp"

namespace ferrule::tests {

inline sizing::Sized sized(const std::string& text) { return sizing::sized(Disk("."), "test.fer", text); }

// What is said of one thing: "1A1 bore and rod". Fails the test when nothing is.
inline const sizing::Proposal& about(const sizing::Sized& sized, const std::string& what) {
  for (const sizing::Proposal& one : sized.proposals)
    if (one.working.address == what) return one;
  FAIL("nothing is said of " << what);
  return sized.proposals.front();
}

// A line of its working, SI.
inline double line(const sizing::Proposal& proposal, const std::string& symbol) {
  for (const working::Value& value : proposal.working.values)
    if (value.symbol == symbol) return value.si.value();
  FAIL("no line " << symbol);
  return 0;
}

}  // namespace ferrule::tests
