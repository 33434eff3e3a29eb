// Rough x of every symbol and slot: the draughtsman's composition, before exact coordinates. Internal to render/layout.
#pragma once

#include "render/layout/plan.hpp"

namespace ferrule::layout {

// x of a tap's port by the guesses.
int guess_of(const Plan& plan, const Tap& tap);

// The width a node needs with its texts, roughly.
int girth(const Node& node);

// Pump first, its motor and relief to the right, gauges left, what filters and cools the return at the right end.
void guess_supply(Plan& plan);

// A lane straight over the valve, what stands in a lane over its port, single-ported parts outside.
// `done`, by node: who has a place already.
void guess_branch(Plan& plan, int block, std::vector<char>& done);

// Two of one family between the same two lines turn their long ends away from one another.
void turn_pairs_outward(Plan& plan);

// Slots take the x of the port they lead to.
void guess_slots(Plan& plan);

}  // namespace ferrule::layout
