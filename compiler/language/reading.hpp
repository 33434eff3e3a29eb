// One compilation in the making: what every reader of statements may ask and where it reports.
#pragma once

#include <functional>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/language/cursor.hpp"
#include "compiler/language/faults.hpp"
#include "compiler/model/circuit.hpp"

namespace ferrule {

// What a word in a formula stands for. `silent`: declared, but its value is unknown and a message was already given.
struct Meaning {
  enum class Kind : std::uint8_t { none, silent, value } kind = Kind::none;
  Quantity quantity;
};

// Words of formulas: `let` names in a circuit, facts in a definition.
struct Names {
  virtual ~Names() = default;
  virtual Meaning find(std::string_view word, Span use) = 0;
  virtual std::vector<std::string> known() const = 0;  // for did-you-mean
};

struct Reading {
  const Sources& sources;
  Messages& messages;
  Names* names = nullptr;        // the `let` names
  bool names_missing = false;    // an include failed: unknown tags may stand there, so they are silent

  bool solenoids_missing = false;  // a valve could not be read whole: unknown tags of solenoids are silent

  std::set<std::string, std::less<>> doubtful = {};  // tags that two unlike parts have: what they can do is unknown

  struct Use { std::string name; Span span; };
  std::vector<Use> unknown_tags = {}; // told once per name and file, at the end

  std::string_view text(Span span) const { return sources.text(span); }
  // For messages: a block of many lines is quoted by its first, with three points.
  std::string quoted(Span span) const;
  // Adds a message and gives it back, so that places can be added. The reference lives until the next report.
  Message& report(const TextFault& fault, Span at, std::string sentence, std::string fix = {}, std::string phrase = {});
};

// Everything of an item has to be used up; what is left over is told in one message. True when nothing was left.
bool used_up(Reading& reading, Cursor& cursor, std::string_view after);

// The part of this tag; else notes the unknown tag (one message a name, at the end) and gives none.
PartId part_tagged(Reading& reading, const Circuit& circuit, std::string_view tag, Span use);

// A dotted word split at a declared tag, the longest one first: "clamp.1V1.P" is part "clamp.1V1" and rest "P".
struct Dotted {
  PartId part;
  std::string rest;  // "" when the word is the tag itself
};
Dotted split_at_tag(const Circuit& circuit, std::string_view word);

// The messages for `unknown_tags`: one per name and file, further uses as further places.
void report_unknown_tags(Reading& reading, const Circuit& circuit);

}  // namespace ferrule
