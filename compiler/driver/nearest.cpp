#include "compiler/driver/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace ferrule {
namespace {

std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), 0);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t swapped = diagonal + (a[i - 1] != b[j - 1]);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, swapped});
    }
  }
  return row.back();
}

}  // namespace

std::string nearest(std::string_view word, const std::vector<std::string>& names) {
  if (word.size() > 100) return {};
  std::size_t best = std::max<std::size_t>(1, word.size() / 3) + 1;
  std::string found;
  for (const std::string& name : names)
    if (const std::size_t distance = edits(word, name); distance < best) best = distance, found = name;
  return found;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& names) {
  const std::string name = nearest(word, names);
  return name.empty() ? "" : " (did you mean " + name + "?)";
}

}  // namespace ferrule
