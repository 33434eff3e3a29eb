// What a word in a run names. Only files of compiler/build include this.
#pragma once

#include "compiler/build/building.hpp"

namespace ferrule {

struct Found {
  PartId part;             // none when the tag is unknown (noted) or ambiguous (reported)
  std::int64_t port = -1;  // draft; -1 when the word is a tag alone, or the port does not exist (reported)
  bool bare = false;       // a tag alone
};

// `0P1.P`, `clamp.1V1.A`, `2.P` (a port of the assembly `2`), `0Z2`. Tags inside an assembly are looked up with its prefix.
Found resolve(Building& building, const std::string& prefix, const std::string& word, Span span);

// The port of this name; when there is none the component's ports are told and -1 given.
std::int64_t port_named(Building& building, PartId part, const std::string& name, Span span);

std::string port_names(const Building& building, PartId part);      // "`P` (pressure), `T` (reservoir)"
std::string inlet_of(const Building& building, PartId part);        // the port a run most likely means
std::string new_connection(const Building& building, PartId part);  // next free port name of a reservoir
bool tag_taken(Building& building, const std::string& tag, Span at);  // reported when it is

// Is there a passage of the definition, or of a position row, from one port to the other in this sense?
bool has_way(const Building& building, PartId part, const std::string& from, const std::string& to);

}  // namespace ferrule
