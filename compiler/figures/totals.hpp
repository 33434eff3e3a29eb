// What the steps of a cycle add up to.
#pragma once

#include "compiler/figures/book.hpp"

namespace ferrule::working {

CycleTotal totals_of(const Book& book);

}  // namespace ferrule::working
