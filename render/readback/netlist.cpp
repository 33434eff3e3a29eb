#include "render/readback/netlist.hpp"

#include <fmt/format.h>

#include <map>

#include "render/readback/contacts.hpp"

namespace ferrule::readback {
namespace {

using Key = std::pair<std::string, std::string>;   // sheet, symbol

// A mark where a line goes on, with the lines that end in it.
struct Mark {
  const Reference* reference = nullptr;
  std::size_t group = 0;
  Spot spot;
};

struct Reading {
  std::vector<ReadNet> groups;
  std::map<Key, Mark> marks;
  std::vector<Fault> faults;
};

const Reference* reference_of(const Sheet& sheet, const Symbol& symbol) {
  for (const Reference& reference : sheet.references)
    if (reference.symbol == symbol.id) return &reference;
  return nullptr;
}

Terminal terminal_of(const Symbol& symbol, const Port& port, Spot spot) {
  if (!symbol.stands_for.empty()) return {symbol.stands_for, "", port.shaft, spot};
  return {port.component, port.name, port.shaft, spot};
}

void add_group(Reading& reading, const Sheet& sheet, std::size_t index, const Contacts::Group& group) {
  ReadNet net;
  for (const Point at : group.meetings) net.meetings.push_back({index, at});
  for (const PortOfSheet& of : group.ports) {
    const Symbol& symbol = sheet.symbols[of.symbol];
    const Port& port = symbol.ports[of.port];
    const Spot spot{index, port.at};
    if (symbol.kind != "xref") {
      net.ends.push_back(terminal_of(symbol, port, spot));
    } else if (const Reference* reference = reference_of(sheet, symbol)) {
      reading.marks[{sheet.id, symbol.id}] = {reference, reading.groups.size(), spot};
    } else {
      reading.faults.push_back({spot, "a mark says that a line goes on, but not where"});
    }
  }
  reading.groups.push_back(std::move(net));
}

std::string what_is_wrong(const Reading& reading, const Key& key, const Reference& here) {
  const std::string words = fmt::format("the mark of line {} points to sheet {}", here.name, here.partner_sheet);
  const auto found = reading.marks.find({here.partner_sheet, here.partner_symbol});
  if (found == reading.marks.end()) return words + ", where no mark answers it";
  const Reference& there = *found->second.reference;
  if (Key{there.partner_sheet, there.partner_symbol} != key) return words + ", where its mark points elsewhere";
  return there.name == here.name ? "" : fmt::format("{}, where its mark is of line {}", words, there.name);
}

// Lines that go on elsewhere become one with their other part.
std::vector<ReadNet> through_marks(Reading& reading) {
  Joined joined(reading.groups.size());
  for (const auto& [key, mark] : reading.marks) {
    if (const std::string wrong = what_is_wrong(reading, key, *mark.reference); !wrong.empty())
      reading.faults.push_back({mark.spot, wrong});
    else
      joined.join(mark.group, reading.marks.at({mark.reference->partner_sheet, mark.reference->partner_symbol}).group);
  }
  std::map<std::size_t, ReadNet> by_root;
  for (std::size_t g = 0; g < reading.groups.size(); ++g) {
    ReadNet& net = by_root[joined.root(g)];
    net.ends.insert(net.ends.end(), reading.groups[g].ends.begin(), reading.groups[g].ends.end());
    net.meetings.insert(net.meetings.end(), reading.groups[g].meetings.begin(), reading.groups[g].meetings.end());
  }
  std::vector<ReadNet> nets;
  for (auto& [root, net] : by_root)
    if (!net.ends.empty()) nets.push_back(std::move(net));
  return nets;
}

}  // namespace

Netlist netlist_of(const Geometry& geometry) {
  Reading oil, shafts;
  for (std::size_t s = 0; s < geometry.sheets.size(); ++s) {
    const Sheet& sheet = geometry.sheets[s];
    for (const bool of_shafts : {false, true}) {
      Reading& reading = of_shafts ? shafts : oil;
      const Contacts contacts = contacts_on(sheet, s, of_shafts);
      reading.faults.insert(reading.faults.end(), contacts.faults.begin(), contacts.faults.end());
      for (const Contacts::Group& group : contacts.groups)
        if (group.inked || !of_shafts) add_group(reading, sheet, s, group);
    }
  }
  Netlist list{through_marks(oil), through_marks(shafts), std::move(oil.faults)};
  list.faults.insert(list.faults.end(), shafts.faults.begin(), shafts.faults.end());
  return list;
}

}  // namespace ferrule::readback
