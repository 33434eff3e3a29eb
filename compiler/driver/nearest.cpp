#include "compiler/driver/nearest.hpp"

#include "grammar/nearest.hpp"

namespace ferrule {

std::string did_you_mean(std::string_view word, const std::vector<std::string>& names) {
  if (word.size() > 100) return {};
  const std::vector<std::string> near = nearest(word, names);
  return near.empty() ? "" : " (did you mean " + near.front() + "?)";
}

}  // namespace ferrule
