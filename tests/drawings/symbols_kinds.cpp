// Every kind of the library, told just enough, in the smallest circuit: it compiles without a message and can be drawn.
#include <catch2/catch.hpp>

#include <map>
#include <set>

#include "compiler/compile.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule {

const std::vector<Surroundings::LibraryFile>& library_text();

namespace {

struct Nowhere final : Surroundings {
  Read read(const std::string&) const override { return {"", "there are no other files"}; }
  const std::vector<LibraryFile>& library() const override { return library_text(); }
};

constexpr const char* supply = R"(
reservoir      0Z1 { volume 63 L }
electric-motor 0M1 { power 5.5 kW, speed 1450 rpm }
fixed-pump     0P1 { displacement 16 cm3/rev, driven-by 0M1 }
suction  0Z1 -- {hose DN 32, length 0.8 m} -- 0P1.S
relief-valve   0V9 { setting 160 bar }
pressure 0P1.P -- 0V9.P
return   0V9.T -- 0Z1
)";

// Invented values in the order that the relations of the definitions ask for.
const std::map<std::string, std::string> values = {
    {"bore", "63 mm"},          {"rod", "36 mm"},       {"high-bore", "20 mm"}, {"stroke", "400 mm"},    {"cracking", "100 bar"},
    {"full-flow", "120 bar"},   {"zero-at", "140 bar"}, {"margin", "20 bar"},   {"falling", "100 bar"},  {"rising", "120 bar"},
    {"empty-at", "50 bar"},     {"full-at", "90 bar"},  {"diameter", "1 mm"},   {"precharge", "80 bar"}, {"temperature", "45 degC"}};

std::string stated(const FactSpec& fact) {
  const auto known = values.find(fact.name);
  std::string text = fact.name + " " + (known != values.end() ? known->second : example_of(fact.dimension));
  if (fact.kind == FactKind::quantity_at) text += " at " + example_of(fact.at);
  return text;
}

std::string statement_of(const Definition& definition) {
  std::string facts;
  if (!definition.enough.empty())
    for (const std::string& name : definition.enough.front()) facts += (facts.empty() ? "" : ", ") + stated(*definition.fact(name));
  return definition.name + " 1X1 { " + facts + " }\n";
}

std::set<std::string> ports_of(const Definition& definition) {
  std::set<std::string> ports;
  for (const PortSpec& port : definition.ports)
    if (!port.may_stay_open && port.use != PortUse::electrical && port.use != PortUse::mechanical) ports.insert(port.name);
  for (const PositionRow& row : definition.rows) {
    for (const RowPath& path : row.paths) ports.insert(path.ports.begin(), path.ports.end());
    for (const Actuation& by : row.by)
      if (by.means.find("pilot") != std::string::npos) ports.insert(by.tag);
  }
  return ports;
}

// Outlets and drains go home, everything else meets the pump.
std::string runs_of(const Definition& definition) {
  std::string runs;
  for (const std::string& port : ports_of(definition)) {
    const bool home = port == "T" || port == "T1" || port == "T2" || port == "Y" || port == "L" || port == "S" || port == "OUT" || port == "2";
    const Role* feeds = definition.role("feeds");
    const bool outlet = feeds && std::find(feeds->ports.begin(), feeds->ports.end(), port) != feeds->ports.end();
    if (port == "S") runs += "suction 0Z1 -- 1X1.S\n";
    else if (home) runs += "return 1X1." + port + " -- 0Z1\n";
    else if (outlet) runs += "pressure 1X1." + port + " -- 0V9.P\n";
    else runs += "pressure 0P1.P -- 1X1." + port + "\n";
  }
  return runs;
}

std::string circuit_with(const Definition& definition) {
  return "circuit \"Smallest\" { \"Holds one component.\" }\n" + std::string(supply) + statement_of(definition) + runs_of(definition);
}

void check_compiles(const Definition& definition) {
  const std::string text = circuit_with(definition);
  INFO(text);
  const auto made = compile(Nowhere(), "smallest.fer", text);
  for (const Message& message : made->messages) FAIL_CHECK(message.code << " " << message.sentence << " / " << message.fix);
  const PartId part = made->circuit.part_named("1X1");
  REQUIRE(part);
  if (definition.tier == "none") return;
  const auto figures = symbols::figures_of(*made->library, made->circuit, part);
  REQUIRE_FALSE(figures.empty());
  CHECK_FALSE(symbols::poses_of(figures).empty());
  if (figures.front().trough) return;
  for (std::uint32_t i = 0; i < made->circuit.parts[part].port_count; ++i) {
    const Port& port = made->circuit.ports.rows[made->circuit.parts[part].first_port + i];
    if (port.end != Port::End::joined) continue;
    INFO("port " << port.name);
    const auto& drawn = figures.front().ports;
    CHECK(std::any_of(drawn.begin(), drawn.end(), [&](const SymbolPort& at) { return at.name == port.name; }));
  }
}

}  // namespace

TEST_CASE("every kind of the library compiles when told just enough, and is drawn with all its ports") {
  Sources sources;
  Messages messages;
  Library library(sources, messages, library_text());
  for (const std::string& name : library.definition_names()) {
    const Definition& definition = *library.definition(name);
    // A pipe stands in a run; a valve without a trade name has no rows before the text gives them.
    const bool has_no_rows = definition.ports_from_rows && definition.rows.empty();
    if (definition.is_pipe || definition.role("tank") || has_no_rows) continue;
    SECTION(name) { check_compiles(definition); }
  }
}

TEST_CASE("a definition says what people and checks ask of it") {
  Sources sources;
  Messages messages;
  Library library(sources, messages, library_text());
  for (const std::string& name : library.definition_names()) {
    INFO(name);
    const Definition& definition = *library.definition(name);
    CHECK_FALSE(definition.term.empty());
    CHECK_FALSE(definition.says.empty());
    CHECK_FALSE(definition.letter.empty());
    CHECK_FALSE(definition.tier.empty());
    CHECK_FALSE(definition.family.empty());
    for (const PortSpec& port : definition.ports) CHECK_FALSE(port.text.empty());
    for (const FactSpec& fact : definition.facts) {
      INFO(fact.name);
      CHECK_FALSE(fact.text.empty());
      // A number that the library puts in says where it comes from; one that follows from other facts needs no source.
      const bool computed = fact.preset && std::all_of(fact.preset->tree->terms.data() + fact.preset->first,
                                                       fact.preset->tree->terms.data() + fact.preset->first + fact.preset->count,
                                                       [](const Term& term) { return term.kind != TermKind::number; });
      CHECK((!fact.preset || computed || !fact.source.empty()));
    }
    for (const auto& set : definition.enough)
      for (const std::string& fact : set) CHECK(definition.fact(fact));
    for (const Relation& relation : definition.always) CHECK((definition.fact(relation.smaller) && definition.fact(relation.larger)));
  }
}

}  // namespace ferrule
