// Other circuits for the same class: the same text with other values of the names that `vary` names.
#pragma once

#include <cstdint>

#include "compiler/driver/computed.hpp"

namespace ferrule {

struct Variant {
  Compiled compiled;
  std::vector<std::pair<std::string, Quantity>> values;  // what was varied, in the order of the text
};

// `count` variants, each compiled without findings that the model does not have, settled in every state in which the model is,
// moving and holding the same; one value at least differs by more than 5 % from the variant before it. The same seed gives the
// same. Fewer than asked with the reason in `why`.
std::vector<Variant> variants_of(const Compiled& model, std::size_t count, std::uint32_t seed, std::string_view today, std::string& why);

}  // namespace ferrule
