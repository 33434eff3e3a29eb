#include "render/symbols/operators.hpp"

#include <algorithm>

namespace ferrule::symbols {
namespace {

// Operator words with a meaning for the whole row; every other word is just a stroke part.
constexpr std::string_view springs[] = {"spring", "springs", "adjustable-spring"};
constexpr std::string_view continuous[] = {"proportional-solenoid", "torque-motor"};
constexpr std::string_view works_both_ways[] = {"lever", "torque-motor"};
constexpr std::string_view detent = "detent", stage_word = "pilot-stage", end_bar = "end-bar";

template <class List>
bool among(const List& list, std::string_view word) {
  return std::find(std::begin(list), std::end(list), word) != std::end(list);
}

bool is_spring(const Actuation& by) { return among(springs, by.means); }

enum class End { left, right, both };

// The middle box of a spring-centred valve is brought by both ends; a rest box at an end by its own.
End end_of(std::size_t box, std::size_t count, int rest) {
  const auto index = static_cast<int>(box), last = static_cast<int>(count) - 1;
  if (index != rest) return index < rest ? End::left : End::right;
  if (index == 0 && last > 0) return End::left;
  return index == last ? End::right : End::both;
}

bool stands_at(End end, bool left) { return end == End::both || (end == End::left) == left; }

class Ends {
 public:
  Ends(Library& library, const std::vector<PositionRow>& positions, int rest) : library_(library), positions_(positions), rest_(rest) {}
  std::vector<Chain> chains(bool left);

 private:
  const StrokePart* part(std::string_view word);
  const StrokePart* detent_part();
  Chain chain_of(const PositionRow& row, const Actuation& by);
  bool shown_on_the_left(std::string_view means) const;
  void add_pushing(const PositionRow& row, End end, bool left, std::vector<Chain>& into);

  Library& library_;
  const std::vector<PositionRow>& positions_;
  int rest_;
};

const StrokePart* Ends::part(std::string_view word) {
  const StrokePart* found = library_.operator_part(word);
  return found ? found : library_.part(word);
}

// One notch for every position.
const StrokePart* Ends::detent_part() {
  const StrokePart* found = library_.part(std::string(detent) + "-" + std::to_string(positions_.size()));
  return found ? found : part(detent);
}

bool has_detent(const PositionRow& row) {
  return std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) { return by.means == detent; });
}

Chain Ends::chain_of(const PositionRow& row, const Actuation& by) {
  Chain chain;
  const auto link = [&](const StrokePart* found, bool stage = false) {
    if (found) chain.links.push_back({found, stage});
  };
  if (has_detent(row)) link(detent_part());
  if (!by.through.empty()) link(part(by.through), by.through.find(stage_word) != std::string::npos);
  link(part(by.means));
  if (!by.with.empty()) link(part(by.with));
  (by.means.find("pilot") != std::string::npos ? chain.pilot : chain.tag) = by.tag;
  return chain;
}

bool Ends::shown_on_the_left(std::string_view means) const {
  if (!among(works_both_ways, means)) return false;
  for (std::size_t i = 0; i < positions_.size(); ++i)
    for (const Actuation& by : positions_[i].by)
      if (by.means == means && stands_at(end_of(i, positions_.size(), rest_), true)) return true;
  return false;
}

void Ends::add_pushing(const PositionRow& row, End end, bool left, std::vector<Chain>& into) {
  if (!stands_at(end, left)) return;
  for (const Actuation& by : row.by) {
    if (is_spring(by) || by.means == detent) continue;
    if (!left && shown_on_the_left(by.means)) continue;
    into.push_back(chain_of(row, by));
  }
}

std::vector<Chain> Ends::chains(bool left) {
  std::vector<Chain> slots, pushing;
  bool lone_detent = false;
  for (std::size_t i = 0; i < positions_.size(); ++i) {
    const PositionRow& row = positions_[i];
    const End end = end_of(i, positions_.size(), rest_);
    for (const Actuation& by : row.by)
      if (is_spring(by) && stands_at(end, left)) slots.push_back(chain_of({}, by));
    add_pushing(row, end, left, pushing);
    const bool pushes = std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) { return !is_spring(by) && by.means != detent; });
    lone_detent |= has_detent(row) && !pushes;
  }
  // A detent that no operator carries: behind the operator of the right end, or free there with a bar at its end.
  if (lone_detent && !left) {
    const Link notch{detent_part()};
    if (!pushing.empty()) pushing.front().links.insert(pushing.front().links.begin(), notch);
    else pushing.push_back({{notch, {part(end_bar)}}, {}, {}});
  }
  slots.insert(slots.end(), pushing.begin(), pushing.end());
  for (Chain& chain : slots) std::erase_if(chain.links, [](const Link& link) { return !link.part; });
  return slots;
}

}  // namespace

std::vector<Chain> chains_of(Library& library, const std::vector<PositionRow>& positions, int rest, bool left) {
  return Ends(library, positions, rest).chains(left);
}

bool acts_continuously(const std::vector<PositionRow>& positions) {
  for (const PositionRow& row : positions) {
    if (std::any_of(row.paths.begin(), row.paths.end(), [](const RowPath& path) { return path.metered; })) return true;
    if (std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) { return among(continuous, by.means); })) return true;
  }
  return false;
}

}  // namespace ferrule::symbols
