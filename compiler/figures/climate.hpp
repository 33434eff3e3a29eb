// The temperature at which the oil stays: heat of the cycle against what walls and coolers give off.
#pragma once

#include "compiler/figures/book.hpp"

namespace ferrule::working {

Climate climate_of(const Book& book);

}  // namespace ferrule::working
