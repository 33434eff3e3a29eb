#include "compiler/driver/did_you_mean.hpp"

#include "compiler/language/names.hpp"

namespace ferrule {

std::string did_you_mean(std::string_view word, const std::vector<std::string>& names) {
  const std::vector<std::string> near = nearest(word, names);
  return near.empty() ? "" : " (did you mean " + near.front() + "?)";
}

}  // namespace ferrule
