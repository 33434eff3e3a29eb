#include "render/readback/contacts.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace ferrule::readback {
namespace {

struct Touching {
  const Sheet& sheet;
  std::size_t index;
  Ink ink;
  std::vector<PortOfSheet> ports;
  std::map<Point, std::vector<std::size_t>> ports_at;
  std::set<Point> dots;
  Joined joined;                     // pieces first, then ports
  std::vector<std::pair<std::size_t, Point>> meetings;  // piece, place
  std::vector<Fault> faults;
};

Touching touching(const Sheet& sheet, std::size_t index, bool shafts) {
  Ink ink = ink_of(sheet, index, shafts);
  std::vector<PortOfSheet> ports;
  std::map<Point, std::vector<std::size_t>> ports_at;
  for (std::size_t s = 0; s < sheet.symbols.size(); ++s)
    for (std::size_t p = 0; p < sheet.symbols[s].ports.size(); ++p) {
      ports_at[sheet.symbols[s].ports[p].at].push_back(ports.size());
      ports.push_back({s, p});
    }
  std::set<Point> dots;
  if (!shafts) dots = {sheet.dots.begin(), sheet.dots.end()};
  const std::size_t count = ink.pieces.size() + ports.size();
  return {sheet, index, std::move(ink), std::move(ports), std::move(ports_at), std::move(dots), Joined(count), {}, {}};
}

// Wherever something ends, stands or is dotted: nowhere else can a joint be.
std::set<Point> places_of(const Touching& in) {
  std::set<Point> places = in.dots;
  for (const Piece& piece : in.ink.pieces) places.insert({piece.start(), piece.stop()});
  for (const auto& [at, ports] : in.ports_at) places.insert(at);
  return places;
}

std::string what_is_wrong(std::size_t ways, std::size_t ports, bool dot) {
  if (dot) return ways + ports >= 3 ? "" : ways == 0 ? "a dot stands on no line" : "a dot stands where nothing joins";
  if (ways == 1 && ports == 0) return "a line ends at nothing";
  if (ways > 0 && ways + ports >= 3) return ports > 0 ? "a line runs on past a port without a dot" : "lines meet without a dot";
  return "";
}

void read_place(Touching& in, Point place) {
  std::vector<std::size_t> pieces, members;
  std::size_t ways = 0;
  for (const bool level : {true, false})
    if (const int found = in.ink.through(place, level); found >= 0) {
      const Piece& piece = in.ink.pieces[static_cast<std::size_t>(found)];
      pieces.push_back(static_cast<std::size_t>(found));
      ways += static_cast<std::size_t>(piece.before(place)) + static_cast<std::size_t>(piece.beyond(place));
    }
  members = pieces;
  const auto ports = in.ports_at.find(place);
  if (ports != in.ports_at.end())
    for (const std::size_t port : ports->second) members.push_back(in.ink.pieces.size() + port);
  if (const std::string wrong = what_is_wrong(ways, members.size() - pieces.size(), in.dots.contains(place)); !wrong.empty())
    in.faults.push_back({Spot{in.index, place}, wrong});
  for (const std::size_t member : members) in.joined.join(members.front(), member);
  if (pieces.size() == 2 && in.ink.pieces[pieces[0]].net != in.ink.pieces[pieces[1]].net) in.meetings.push_back({pieces[0], place});
}

std::vector<Contacts::Group> grouped(Touching& in) {
  std::map<std::size_t, std::size_t> group_of_root;
  std::vector<Contacts::Group> groups;
  const auto group = [&](std::size_t member) -> Contacts::Group& {
    const auto [at, fresh] = group_of_root.try_emplace(in.joined.root(member), groups.size());
    if (fresh) groups.emplace_back();
    return groups[at->second];
  };
  for (std::size_t p = 0; p < in.ports.size(); ++p) group(in.ink.pieces.size() + p).ports.push_back(in.ports[p]);
  for (std::size_t i = 0; i < in.ink.pieces.size(); ++i) {
    group(i).inked = true;
    if (in.ink.pieces[i].meets) group(i).meetings.push_back(*in.ink.pieces[i].meets);
  }
  for (const auto& [piece, place] : in.meetings) group(piece).meetings.push_back(place);
  return groups;
}

}  // namespace

Contacts contacts_on(const Sheet& sheet, std::size_t index, bool shafts) {
  Touching in = touching(sheet, index, shafts);
  for (const Point place : places_of(in)) read_place(in, place);
  Contacts contacts{grouped(in), in.ink.faults};
  contacts.faults.insert(contacts.faults.end(), in.faults.begin(), in.faults.end());
  return contacts;
}

}  // namespace ferrule::readback
