// Typed indices, so that a node can't be handed in where a port is meant.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace ferrule {

template <class Thing>
struct Id {
  static constexpr std::uint32_t none = 0xffffffff;
  std::uint32_t index = none;
  friend auto operator<=>(Id, Id) = default;
  explicit operator bool() const { return index != none; }
};

// A vector that is indexed by the id of its things.
template <class Thing>
struct Table {
  std::vector<Thing> rows;

  Thing& operator[](Id<Thing> id) { return rows[id.index]; }
  const Thing& operator[](Id<Thing> id) const { return rows[id.index]; }
  Id<Thing> add(Thing thing) {
    rows.push_back(std::move(thing));
    return {static_cast<std::uint32_t>(rows.size() - 1)};
  }
  std::size_t size() const { return rows.size(); }
  auto begin() const { return rows.begin(); }
  auto end() const { return rows.end(); }
  Id<Thing> id_of(const Thing& thing) const { return {static_cast<std::uint32_t>(&thing - rows.data())}; }
};

using PartId = Id<struct Part>;
using PortId = Id<struct Port>;
using NodeId = Id<struct Node>;
using LineId = Id<struct Line>;
using ElementId = Id<struct Element>;
using StepId = Id<struct Step>;

}  // namespace ferrule
