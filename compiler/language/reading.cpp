#include "compiler/language/reading.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

constexpr std::size_t most_places = 20;  // per message, so that a million uses stay readable

// `0P1-S`: the dash of a tag and its port, when that tag is there.
std::string with_dot(const std::vector<std::string>& tags, const std::string& name) {
  const std::size_t dash = name.rfind('-');
  if (dash == std::string::npos || std::find(tags.begin(), tags.end(), name.substr(0, dash)) == tags.end()) return {};
  return name.substr(0, dash) + "." + name.substr(dash + 1);
}

void report_unknown_tag(Reading& reading, const std::vector<std::string>& tags, const std::vector<Span>& uses,
                        const std::string& name) {
  const std::string otherwise = tags.empty() ? "declare it: `KIND " + name + " { ... }`" : "declare it, or use a tag that is declared";
  const std::string dotted = with_dot(tags, name);
  if (!dotted.empty())
    return (void)reading.report(fault::unknown_tag, uses.front(), "between a tag and its port stands a dot", fmt::format("write `{}`", dotted));
  Message& message = reading.report(fault::unknown_tag, uses.front(), fmt::format("no part has the tag `{}`", name),
                                    write_instead(name, tags, otherwise));
  for (std::size_t i = 1; i < uses.size() && i < most_places; ++i) message.places.push_back({uses[i], "also here"});
  if (uses.size() > most_places) message.places.back().phrase = fmt::format("+ {} more", uses.size() - most_places);
}

}  // namespace

Message& Reading::report(const TextFault& fault, Span at, std::string sentence, std::string fix, std::string phrase) {
  messages.push_back(message_of(fault, at, std::move(sentence), std::move(fix), std::move(phrase)));
  return messages.back();
}

std::string Reading::quoted(Span span) const {
  const std::string_view words = text(span);
  const std::size_t end = words.find_first_of("\r\n");
  return end == std::string_view::npos ? std::string(words) : std::string(words.substr(0, end)) + " ...";
}

bool used_up(Reading& reading, Cursor& cursor, std::string_view after) {
  if (cursor.done()) return true;
  // What was told of this item explains what is left of it.
  const Span whole = cursor.whole();
  const bool told = !reading.messages.empty() && !reading.messages.back().places.empty() && whole.file == reading.messages.back().places[0].span.file &&
                    whole.begin <= reading.messages.back().places[0].span.begin && reading.messages.back().places[0].span.begin <= whole.end;
  const bool broken = told || std::any_of(cursor.terms().begin(), cursor.terms().end(),
                                  [](const Term& term) { return term.kind == TermKind::broken; });
  if (!broken)
    reading.report(fault::words_left_over, cursor.rest(),
                   fmt::format("`{}` has no meaning after {}", reading.quoted(cursor.here()), after),
                   "end what stands before it with a comma or a new line, or leave this out");
  cursor.skip_all();
  return false;
}

PartId part_tagged(Reading& reading, const Circuit& circuit, std::string_view tag, Span use) {
  const auto found = circuit.by_tag.find(tag);
  if (found != circuit.by_tag.end()) return found->second;
  reading.unknown_tags.push_back({std::string(tag), use});
  return {};
}

Dotted split_at_tag(const Circuit& circuit, std::string_view word) {
  std::size_t end = word.size();
  while (end != std::string_view::npos && end > 0) {
    const auto found = circuit.by_tag.find(word.substr(0, end));
    if (found != circuit.by_tag.end())
      return {found->second, std::string(end < word.size() ? word.substr(end + 1) : std::string_view{})};
    end = word.rfind('.', end - 1);
  }
  return {};
}

void report_unknown_tags(Reading& reading, const Circuit& circuit) {
  if (reading.names_missing) return;
  std::vector<std::string> tags;
  for (const Part& part : circuit.parts) tags.push_back(part.tag);
  std::map<std::pair<std::uint32_t, std::string>, std::vector<Span>> uses;
  for (const Reading::Use& use : reading.unknown_tags) uses[{use.span.file, use.name}].push_back(use.span);
  for (auto& [key, spans] : uses) {
    std::sort(spans.begin(), spans.end(), [](Span a, Span b) { return a.begin < b.begin; });
    report_unknown_tag(reading, tags, spans, key.second);
  }
}

}  // namespace ferrule
