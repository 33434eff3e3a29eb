#include "render/pages/breaking.hpp"

namespace ferrule::pages {
namespace {

constexpr double rounding = 1e-6;  // mm

bool begins_with_repeated_head(const std::vector<Piece>& pieces, std::size_t first) {
  return pieces[first].head >= 0 && static_cast<std::size_t>(pieces[first].head) < first;
}

// One page from `first` on, up to but without `end`.
Standings stood(const std::vector<Piece>& pieces, std::size_t first, std::size_t end) {
  Standings page;
  double top = 0;
  const auto put = [&](std::size_t index) {
    if (!page.empty()) top += pieces[index].before;
    page.push_back({index, top});
    top += pieces[index].height;
  };
  if (begins_with_repeated_head(pieces, first)) put(static_cast<std::size_t>(pieces[first].head));
  for (std::size_t index = first; index < end; ++index) put(index);
  return page;
}

// The first piece that no longer fits a page that begins with `first`; at least one piece is taken.
std::size_t filled_until(const std::vector<Piece>& pieces, std::size_t first, double room) {
  double used = begins_with_repeated_head(pieces, first) ? pieces[static_cast<std::size_t>(pieces[first].head)].height : 0;
  for (std::size_t index = first; index < pieces.size(); ++index) {
    used += pieces[index].height + (index == first ? 0 : pieces[index].before);
    if (used > room + rounding) return index == first ? first + 1 : index;
  }
  return pieces.size();
}

}  // namespace

bool stays_with_next(std::size_t index, std::size_t count) {
  return count > 1 && (index == 0 || index + 2 == count);
}

std::vector<Standings> broken(const std::vector<Piece>& pieces, double room) {
  std::vector<Standings> all;
  for (std::size_t first = 0; first < pieces.size();) {
    const std::size_t full = filled_until(pieces, first, room);
    std::size_t end = full;
    if (end < pieces.size())
      while (end > first && pieces[end - 1].with_next) --end;
    if (end == first) end = full;
    all.push_back(stood(pieces, first, end));
    first = end;
  }
  return all;
}

}  // namespace ferrule::pages
