// A circuit in the making. Only files of compiler/build and compile.cpp include this.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "compiler/language/component.hpp"
#include "compiler/language/run.hpp"

namespace ferrule {

// What the text said of a part beyond what Part keeps.
struct PartText {
  std::set<std::string> broken;              // facts stated, value unknown
  std::vector<FactsText::Operated> operated;
  std::string rest, like, prefix;            // prefix of the assembly it stands in: "2", "clamp."
  Span rest_span, like_span;
  enum class State : std::uint8_t { waiting, working, done } copied = State::waiting;
  std::map<std::string, NodeId, std::less<>> inner_nodes;
  std::vector<std::uint32_t> ports;          // drafts in Building::ports
  std::map<std::string, std::uint32_t, std::less<>> ports_by_name;  // kept from the 17th port on: a reservoir may have thousands
  bool unclear = false, rows_unclear = false;  // see FactsText
  bool silent = false;                       // a message about it stands: open ports and the like are not told
};

// An instance of an assembly: its ports are ports of parts inside.
struct Instance {
  const Definition* definition = nullptr;
  std::string prefix;
  Span span;
};

// What shifts a valve and has a tag of its own: `by solenoid 1Y1`.
struct Solenoid {
  Span span;
  PartId part;
};

struct EveryText {
  std::string kind;
  FactsText facts;
};

struct ScopedRun {
  RunText text;
  std::string prefix;
};

struct Building {
  Reading& reading;
  Library& library;
  Circuit& circuit;
  std::vector<PartText> texts = {};           // by part
  std::map<std::string, Instance, std::less<>> instances = {};
  std::vector<EveryText> every = {};
  std::vector<ScopedRun> runs = {};
  std::vector<Port> ports = {};               // drafts in the order they were first needed; sorted by part at the end
  std::vector<std::uint32_t> joined_to = {};  // union of port drafts: same root, same node
  std::map<std::string, Solenoid, std::less<>> solenoids = {};  // tags of what shifts valves
  std::set<std::pair<std::uint32_t, const FactSpec*>> completing = {};
  std::set<std::uint32_t> told = {};          // places of definitions that were told, whatever the number of instances
  bool lost_ends = false;                     // an end of a run is unknown: any open port may be the one that was meant
  std::vector<PartId> unnamed = {};           // lines that the text gives no tag

  PartText& text(PartId part) { return texts[part.index]; }
};

// ---- parts.cpp: tags, `like`, `every`
// `said` are items that an instance of an assembly says of this part: they go before what the part says itself.
void declare_component(Building& building, const Statement& statement, const std::string& prefix, int depth = 0,
                       std::vector<Cursor> said = {});
void report_duplicate(Building& building, const std::string& tag, Span second, Span first);
PartId add_part(Building& building, ComponentText text, const std::string& prefix);
// A part whose kind is not known is declared all the same: every port of it exists, nothing is said of it.
const Definition& unknown_definition();
// ---- assemblies.cpp: the components and runs inside, with the tags of this instance
void expand_assembly(Building& building, const ComponentText& instance, const std::string& prefix, int depth, std::vector<Cursor> said);
void copy_alike(Building& building);      // `cylinder C2 like C1`
void copy_every(Building& building);      // `every line { ... }`; after the runs, which make lines

// ---- positions.cpp: rows of the definition, of the text, what shifts them, rest, solenoids
void settle_rows(Building& building);

// ---- defaults.cpp: what the text does not state but the definition gives
void complete_facts(Building& building);
void complete_fact(Building& building, PartId part, const FactSpec& spec);

// ---- ports.cpp
std::uint32_t port_draft(Building& building, PartId part, std::string_view name);  // makes it when it is new
std::int64_t existing_port(const Building& building, PartId part, std::string_view name);  // -1 when there is none
void make_ports(Building& building);
void join(Building& building, std::uint32_t a, std::uint32_t b);
std::uint32_t root_of(Building& building, std::uint32_t port);
void settle_nodes(Building& building);    // final port and node tables

// ---- runs.cpp
void join_runs(Building& building);
void close_port(Building& building, const Statement& statement);  // `plugged X.Y`, `open X.Y because "..."`

// ---- elements.cpp
void make_elements(Building& building);

// ---- whole.cpp: what only the whole circuit shows
void report_open_ports(Building& building);
void report_floating_parts(Building& building);

// ---- fluids.cpp
void report_joined_fluids(Building& building);

}  // namespace ferrule
