#include "compiler/driver/difference.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "checks/report/letters.hpp"

namespace ferrule {
namespace {

using Lines = std::vector<std::string_view>;

Lines lines_of(std::string_view text) {
  Lines lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

// Stretches of lines that differ: [a, a_end) became [b, b_end).
struct Change {
  std::size_t a, a_end, b, b_end;
};

// How far ahead the next common line is sought; laying out a text moves few lines, so a longest common subsequence of the
// whole is not worth its square.
constexpr std::size_t horizon = 200;

Change change_at(const Lines& before, const Lines& after, std::size_t a, std::size_t b) {
  for (std::size_t away = 1; away < horizon; ++away)
    for (std::size_t i = 0; i <= away; ++i) {
      const std::size_t x = a + i, y = b + away - i;
      const bool both_end = x >= before.size() && y >= after.size();
      if (both_end || (x < before.size() && y < after.size() && before[x] == after[y]))
        return {a, std::min(x, before.size()), b, std::min(y, after.size())};
    }
  return {a, before.size(), b, after.size()};
}

std::string hunk(const Lines& before, const Lines& after, const Change& c) {
  const std::size_t lead = std::min<std::size_t>({3, c.a, c.b});
  const std::size_t trail = std::min<std::size_t>({3, before.size() - c.a_end, after.size() - c.b_end});
  std::string out = fmt::format("@@ -{},{} +{},{} @@\n", c.a - lead + 1, c.a_end - c.a + lead + trail, c.b - lead + 1, c.b_end - c.b + lead + trail);
  for (std::size_t i = c.a - lead; i < c.a; ++i) out += fmt::format(" {}\n", safe(before[i]));
  for (std::size_t i = c.a; i < c.a_end; ++i) out += fmt::format("-{}\n", safe(before[i]));
  for (std::size_t i = c.b; i < c.b_end; ++i) out += fmt::format("+{}\n", safe(after[i]));
  for (std::size_t i = c.a_end; i < c.a_end + trail; ++i) out += fmt::format(" {}\n", safe(before[i]));
  return out;
}

}  // namespace

std::string difference(const std::string& path, const std::string& before, const std::string& after) {
  if (before == after) return {};
  const Lines old_lines = lines_of(before), new_lines = lines_of(after);
  std::string out = fmt::format("--- a/{0}\n+++ b/{0}\n", safe(path));
  for (std::size_t a = 0, b = 0; a < old_lines.size() || b < new_lines.size();) {
    if (a < old_lines.size() && b < new_lines.size() && old_lines[a] == new_lines[b]) {
      ++a, ++b;
      continue;
    }
    const Change change = change_at(old_lines, new_lines, a, b);
    out += hunk(old_lines, new_lines, change);
    a = change.a_end, b = change.b_end;
  }
  return out;
}

}  // namespace ferrule
