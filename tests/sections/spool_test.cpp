// Spools made from position tables join what the tables say: by intervals, and by filling the drawn oil.
#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

#include <map>

#include "compiler/library/library.hpp"
#include "compiler/text.hpp"
#include "render/sections/section.hpp"
#include "support/dice.hpp"

using namespace ferrule;
using namespace ferrule::sections;
using namespace ferrule::tests;

namespace {

// ---------------------------------------------------------------- the drawn oil, filled

bool is_inside(const std::vector<canvas::Point>& outline, double x, double y) {
  bool inside = false;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++)
    if ((outline[i].y > y) != (outline[j].y > y) && x < (outline[j].x - outline[i].x) * (y - outline[i].y) / (outline[j].y - outline[i].y) + outline[i].x) inside = !inside;
  return inside;
}

// Oil or not, square by square, as the shapes lie over each other.
struct Picture {
  static constexpr int per_mm = 4;
  static constexpr double top = -21;
  int width, height = 42 * per_mm;
  std::vector<char> oil;

  Picture(const Section& figure, double length) : width(static_cast<int>(length * per_mm)), oil(static_cast<std::size_t>(width * height)) {
    for (const Shape& shape : figure.shapes) {
      double left = 1e9, right = -1e9;
      for (const canvas::Point& p : shape.outline) left = std::min(left, p.x), right = std::max(right, p.x);
      for (int column = std::max(0, static_cast<int>(left * per_mm) - 1); column < std::min(width, static_cast<int>(right * per_mm) + 2); ++column)
        for (int row = 0; row < height; ++row)
          if (is_inside(shape.outline, x_of(column), y_of(row))) oil[at(column, row)] = shape.look == Look::oil || shape.look == Look::drilling;
    }
  }
  double x_of(int column) const { return (column + 0.5) / per_mm; }
  double y_of(int row) const { return top + (row + 0.5) / per_mm; }
  std::size_t at(int column, int row) const { return static_cast<std::size_t>(row * width + column); }
  std::size_t at_point(double x, double y) const { return at(static_cast<int>(x * per_mm), static_cast<int>((y - top) * per_mm)); }

  // A number for every connected piece of oil.
  std::vector<int> pieces() const {
    std::vector<int> piece(oil.size(), 0);
    int count = 0;
    for (std::size_t start = 0; start < oil.size(); ++start) {
      if (!oil[start] || piece[start]) continue;
      std::vector<std::size_t> front{start};
      piece[start] = ++count;
      while (!front.empty()) {
        const std::size_t here = front.back();
        front.pop_back();
        const auto wide = static_cast<std::size_t>(width);
        const auto take = [&](std::size_t next) {
          if (next < oil.size() && oil[next] && !piece[next]) piece[next] = count, front.push_back(next);
        };
        if (here % wide) take(here - 1);
        if (here % wide + 1 < wide) take(here + 1);
        take(here - wide);
        take(here + wide);
      }
    }
    return piece;
  }
};

// Ports by the pieces of oil their chambers lie in; both halves of an annulus and all chambers of a port are one.
Groups filled(const Spool& spool, const Section& figure) {
  const Picture picture(figure, spool.length);
  const std::vector<int> piece = picture.pieces();
  std::vector<int> parent(piece.size() + 1);
  std::iota(parent.begin(), parent.end(), 0);
  const auto root = [&](int i) {
    while (parent[static_cast<std::size_t>(i)] != i) i = parent[static_cast<std::size_t>(i)];
    return i;
  };
  std::vector<int> of_port(spool.ports.size(), 0);
  for (const Chamber& chamber : spool.chambers)
    for (const double y : {-9.5, 9.5}) {
      const int here = piece[picture.at_point((chamber.at.from + chamber.at.to) / 2, y)];
      REQUIRE(here > 0);
      int& first = of_port[static_cast<std::size_t>(chamber.port)];
      if (first == 0) first = here;
      else parent[static_cast<std::size_t>(root(here))] = root(first);
    }
  std::map<int, std::vector<std::string>> groups;
  for (std::size_t p = 0; p < spool.ports.size(); ++p) groups[root(of_port[p])].push_back(spool.ports[p]);
  Groups out;
  for (auto& [number, group] : groups) out.push_back(std::move(group));
  return sorted_groups(out);
}

// ---------------------------------------------------------------- what the model says

// The expectation: which ports the circuit's own elements join in a position.
Groups joined_by_elements(const Circuit& circuit, PartId valve, std::int16_t position) {
  std::map<std::uint32_t, std::uint32_t> parent;
  const auto root = [&](std::uint32_t i) {
    while (parent.contains(i) && parent[i] != i) i = parent[i];
    return i;
  };
  for (const Element& element : circuit.elements)
    if (element.part == valve && element.position == position)
      for (NodeId end : element.ends)
        if (end && root(end.index) != root(element.ends[0].index)) parent[root(end.index)] = root(element.ends[0].index);
  std::map<std::uint32_t, std::vector<std::string>> groups;
  const Part& part = circuit.parts[valve];
  for (std::uint32_t i = 0; i < part.port_count; ++i) {
    const Port& port = circuit.ports[{part.first_port + i}];
    if (port.use == PortUse::main) groups[root(port.node.index)].push_back(port.name);
  }
  Groups out;
  for (auto& [number, group] : groups) out.push_back(std::move(group));
  return sorted_groups(out);
}

struct Shown {
  Spool spool;
  const Part& part;
  std::vector<Groups> wanted;  // by position, from the elements
};

// One valve of a kind, alone in a circuit.
std::unique_ptr<Compilation> valve_of(const std::string& kind, const Definition& definition) {
  std::string facts;
  for (const FactSpec& fact : definition.facts)
    if (fact.name == "flow") facts += "flow 10 L/min, ";
  return compiled(kind + " V { " + facts + "}\n");
}

std::optional<Shown> shown(const Circuit& circuit, std::string& why) {
  const PartId valve = circuit.part_named("V");
  const Part& part = circuit.parts[valve];
  auto spool = spool_for(table_of(part), why);
  if (!spool) return {};
  Shown out{std::move(*spool), part, {}};
  for (std::size_t p = 0; p < part.positions.size(); ++p) out.wanted.push_back(joined_by_elements(circuit, valve, static_cast<std::int16_t>(p)));
  return out;
}

bool is_right(const Spool& spool, const Shown& shown) {
  for (std::size_t p = 0; p < shown.wanted.size(); ++p)
    if (joins_at(spool, p) != shown.wanted[p]) return false;
  return true;
}

// Rows over random ports in which only neighbours of a hidden order are joined: all of these can be built.
std::string random_valve(Dice& dice) {
  constexpr const char* names[] = {"P", "A", "B", "T", "C", "D"};
  const int ports = 2 + dice.below(5), positions = 2 + dice.below(2);
  std::string text = "valve V {\n";
  for (int p = 0; p < positions; ++p) {
    std::string paths, group = names[0];
    for (int i = 1; i < ports; ++i) {
      if (dice.below(10) < 4) group += std::string("-") + names[i];
      else {
        if (group.size() > 1) paths += " " + group;
        group = names[i];
      }
    }
    if (group.size() > 1) paths += " " + group;
    const bool rest = p == 1;
    text += "  position " + std::string(1, static_cast<char>('a' + p)) + (paths.empty() ? " closed" : paths) + (rest ? (positions == 3 ? " by springs" : " by spring") : " by solenoid Y" + std::to_string(p)) + "\n";
  }
  return text + "}\n";
}

}  // namespace

TEST_CASE("every spool valve of the library has a section that joins what its positions say") {
  Sources sources;
  Messages messages;
  Library library{sources, messages, surroundings().library()};
  std::size_t valves = 0, positions = 0;
  std::vector<std::string> without;
  for (const std::string& kind : library.definition_names()) {
    const Definition* definition = library.definition(kind);
    if (!definition || definition->rows.empty() || definition->fact("seat") == nullptr) continue;
    const auto compilation = valve_of(kind, *definition);
    const Part& part = compilation->circuit.parts[compilation->circuit.part_named("V")];
    if (part.positions.empty() || part.has("seat")) continue;
    std::string why;
    const auto one = shown(compilation->circuit, why);
    INFO(kind);
    if (!one) {
      without.push_back(kind + ": " + why);
      continue;
    }
    ++valves;
    for (std::size_t p = 0; p < part.positions.size(); ++p, ++positions) {
      INFO("position " << part.positions[p].name);
      CHECK(joins_at(one->spool, p) == one->wanted[p]);
      CHECK(filled(one->spool, section_of(one->spool, part, p, {})) == one->wanted[p]);
    }
  }
  for (const std::string& kind : without) UNSCOPED_INFO(kind);
  CHECK(without.empty());
  CHECK(valves >= 25);
  CHECK(positions >= 60);
}

TEST_CASE("400 generated tables get a spool that joins what they say") {
  Dice dice(20260417);
  for (int i = 0; i < 400; ++i) {
    const std::string text = random_valve(dice);
    const auto compilation = compiled(text);
    const PartId valve = compilation->circuit.part_named("V");
    if (table_of(compilation->circuit.parts[valve]).ports.size() < 2) continue;
    std::string why;
    const auto one = shown(compilation->circuit, why);
    INFO(text << why);
    REQUIRE(one);
    for (std::size_t p = 0; p < one->wanted.size(); ++p) {
      CHECK(joins_at(one->spool, p) == one->wanted[p]);
      CHECK(filled(one->spool, section_of(one->spool, one->part, p, {})) == one->wanted[p]);
    }
  }
}

TEST_CASE("a spool whose land is moved no longer joins what the table says") {
  std::size_t mutants = 0, noticed = 0;
  for (const char* kind : {"closed-centre-valve", "open-centre-valve", "float-centre-valve", "tandem-centre-valve", "four-way-valve", "normally-closed-three-way-valve"}) {
    const auto compilation = compiled(std::string(kind) + " V { }\n");
    std::string why;
    const auto one = shown(compilation->circuit, why);
    REQUIRE(one);
    REQUIRE(is_right(one->spool, *one));
    for (std::size_t land = 0; land + 1 < one->spool.lands.size(); ++land)
      for (const double by : {-(web + 3), web + 3}) {
        Spool mutant = one->spool;
        mutant.lands[land].to += by;
        ++mutants;
        noticed += !is_right(mutant, *one);
      }
  }
  CHECK(mutants >= 20);
  // An edge that only widens a groove over a web that is open anyway changes nothing; few do.
  CHECK(noticed * 10 >= mutants * 8);
}

TEST_CASE("what no single spool does is said") {
  const auto compilation = compiled("valve V {\n position a P-T A-B by solenoid Y1\n position 0 P-A B-T by springs\n position b P-B A-T by solenoid Y2\n}\n");
  std::string why;
  CHECK_FALSE(shown(compilation->circuit, why));
  CHECK(why.find("no single spool") != std::string::npos);
}
