#include "render/readback/partition.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

namespace ferrule::readback {
namespace {

using Names = std::vector<std::string>;
using Members = std::vector<const Member*>;

Names names_of(const Members& members) {
  Names names;
  for (const Member* member : members) names.push_back(member->name);
  return names;
}

// Members by a net's number, in the order in which the nets are met.
std::vector<Members> parted(const Members& members, std::size_t Member::*net) {
  std::map<std::size_t, std::size_t> index;
  std::vector<Members> parts;
  for (const Member* member : members) {
    const auto [at, fresh] = index.try_emplace(member->*net, parts.size());
    if (fresh) parts.emplace_back();
    parts[at->second].push_back(member);
  }
  return parts;
}

// The largest part is the net; what stands apart from it is told once a part.
void report_split(const Members& net, std::vector<Fault>& found) {
  Members drawn;
  for (const Member* member : net) {
    if (member->spot) drawn.push_back(member);
    else found.push_back({{}, fmt::format("{} is not drawn; the text joins it in the net of {}", member->name, listed(names_of(net)))});
  }
  auto parts = parted(drawn, &Member::read);
  std::stable_sort(parts.begin(), parts.end(), [](const Members& a, const Members& b) { return a.size() > b.size(); });
  for (std::size_t i = 1; i < parts.size(); ++i)
    found.push_back({parts[i].front()->spot, fmt::format("{} {} not joined to {} here; the text joins them", listed(names_of(parts[i])),
                                                         parts[i].size() == 1 ? "is" : "are", listed(names_of(parts[0])))});
}

void report_joined(const Members& net, const std::vector<std::vector<Spot>>& meetings, std::vector<Fault>& found) {
  auto parts = parted(net, &Member::told);
  std::stable_sort(parts.begin(), parts.end(), [](const Members& a, const Members& b) { return a.size() > b.size(); });
  const std::size_t read = net.front()->read;
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const bool met = read < meetings.size() && !meetings[read].empty();
    found.push_back({met ? std::optional(meetings[read].front()) : parts[i].front()->spot,
                     fmt::format("{} {} joined to {} here; the text keeps them apart", listed(names_of(parts[i])), parts[i].size() == 1 ? "is" : "are",
                                 listed(names_of(parts[0])))});
  }
}

}  // namespace

std::string listed(const Names& names) {
  constexpr std::size_t most = 4;
  if (names.size() == 1) return names.front();
  if (names.size() > most + 1) return fmt::format("{} and {} more", fmt::join(names.begin(), names.begin() + most, ", "), names.size() - most);
  return fmt::format("{} and {}", fmt::join(names.begin(), names.end() - 1, ", "), names.back());
}

std::vector<Fault> disagreements(const std::vector<Member>& members, const std::vector<std::vector<Spot>>& meetings) {
  Members all, drawn;
  for (const Member& member : members) {
    all.push_back(&member);
    if (member.spot) drawn.push_back(&member);
  }
  std::vector<Fault> found;
  for (const Members& net : parted(all, &Member::told))
    if (net.size() > 1) report_split(net, found);
  for (const Members& net : parted(drawn, &Member::read)) report_joined(net, meetings, found);
  return found;
}

}  // namespace ferrule::readback
