#include "grammar/nearest.hpp"

#include <algorithm>
#include <cctype>

namespace ferrule {
namespace {

char folded(char c) {
  if (c == '_') return '-';
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace

std::size_t distance_between(std::string_view a, std::string_view b) {
  // Three rows of the usual table: the swap of two neighbours looks two rows back.
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = folded(a[i - 1]) == folded(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
      if (i > 1 && j > 1 && folded(a[i - 1]) == folded(b[j - 2]) && folded(a[i - 2]) == folded(b[j - 1]))
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& known) {
  struct Near { std::size_t distance; std::size_t index; };
  std::vector<Near> found;
  // A word longer than any name of ours is noise, and the table would be as large as the noise.
  if (word.empty() || word.size() > 64) return {};
  const std::size_t most = std::max<std::size_t>(1, word.size() / 3);
  for (std::size_t i = 0; i < known.size(); ++i) {
    const std::size_t gap = known[i].size() > word.size() ? known[i].size() - word.size() : word.size() - known[i].size();
    if (gap > most || known[i].size() > 64) continue;
    const std::size_t distance = distance_between(word, known[i]);
    if (distance <= most && distance < std::max(word.size(), known[i].size())) found.push_back({distance, i});
  }
  std::stable_sort(found.begin(), found.end(), [](const Near& a, const Near& b) { return a.distance < b.distance; });
  // Only upper and lower case or a hyphen differ: nothing else is meant.
  if (!found.empty() && found.front().distance == 0) return {known[found.front().index]};
  std::vector<std::string> names;
  for (const Near& near : found)
    if (names.size() < 3 && std::find(names.begin(), names.end(), known[near.index]) == names.end())
      names.push_back(known[near.index]);
  return names;
}

std::string listed(const std::vector<std::string>& words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " " + std::string(last) + " " : ", ";
    text += "`" + words[i] + "`";
  }
  return text;
}

std::string write_instead(std::string_view word, const std::vector<std::string>& known, std::string otherwise) {
  const std::vector<std::string> near = nearest(word, known);
  return near.empty() ? std::move(otherwise) : "write " + listed(near);
}

}  // namespace ferrule
