// Addresses of results: `1A1.speed`, `0P1.P.pressure`, `return.velocity`, `up-1.time + up-2.time`.
#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/results.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

constexpr std::string_view functions[] = {"pressure", "working", "return", "suction", "drain", "pilot"};

std::vector<std::string> split(std::string_view word) {
  std::vector<std::string> segments;
  for (std::size_t begin = 0; begin <= word.size();) {
    const std::size_t dot = std::min(word.find('.', begin), word.size());
    segments.emplace_back(word.substr(begin, dot - begin));
    begin = dot + 1;
  }
  return segments;
}

bool is_place(const WorkReading& work, const std::string& name) {
  const auto& ties = work.circuit.tie_names;
  return name == "cycle" || name == "oil" || is_step(work.circuit, name) ||
         std::find(std::begin(functions), std::end(functions), name) != std::end(functions) ||
         std::find(ties.begin(), ties.end(), name) != ties.end();
}

std::vector<std::string> known_places(const WorkReading& work) {
  std::vector<std::string> names = step_names(work.circuit);
  for (const Part& part : work.circuit.parts) names.push_back(part.tag);
  names.insert(names.end(), work.circuit.tie_names.begin(), work.circuit.tie_names.end());
  for (std::string_view function : functions) names.emplace_back(function);
  names.insert(names.end(), {"cycle", "oil"});
  return names;
}

// The port of "0P1.P.pressure"; a fault when the part has none of that name.
bool is_known_port(WorkReading& work, const Dotted& dotted, const std::string& port, Span span) {
  const Part& part = work.circuit.parts[dotted.part];
  if (work.circuit.port_of(dotted.part, port)) return true;
  std::vector<std::string> ports;
  for (std::uint32_t index = part.first_port; index < part.first_port + part.port_count; ++index)
    ports.push_back(work.circuit.ports[PortId{index}].name);
  if (!part.definition) return false;
  work.reading.report(fault::unknown_port, span, fmt::format("{} has no port `{}`", part.tag, port),
                      ports.empty() ? "name the part alone" : fmt::format("it has {}", listed(ports, "and")));
  return false;
}

// WHERE split from WHAT; the declared tag counts as one segment, dots and all.
std::optional<std::vector<std::string>> resolved(WorkReading& work, std::string_view word, Span span) {
  const Dotted dotted = split_at_tag(work.circuit, word);
  const std::vector<std::string> all = split(word);
  if (!dotted.part || (is_place(work, all.front()) && all.size() == 2 && dotted.rest.empty())) {
    if (is_place(work, all.front())) return all;
    if (!work.reading.names_missing && !steps_are_lost(work) && work.told.insert(all.front()).second)
      work.reading.report(fault::unknown_tag, span, fmt::format("`{}` is no component, line, step or line function", all.front()),
                          write_instead(all.front(), known_places(work), "write `1A1.speed`, `return.velocity` or `cycle.time`"));
    return {};
  }
  std::vector<std::string> segments{work.circuit.parts[dotted.part].tag};
  if (!dotted.rest.empty())
    for (std::string& segment : split(dotted.rest)) segments.push_back(std::move(segment));
  if (segments.size() == 3 && !is_known_port(work, dotted, segments[1], span)) return {};
  return segments;
}

const ResultWord* result_of(WorkReading& work, const std::vector<std::string>& segments, Span span) {
  const ResultWord* result = segments.size() > 1 ? result_named(segments.back()) : nullptr;
  if (result) return result;
  std::vector<std::string> known;
  for (const ResultWord& row : result_words()) known.emplace_back(row.word);
  const std::string otherwise = "it can be " + listed(known);
  if (segments.size() < 2)
    work.reading.report(fault::unknown_result, span, fmt::format("which result of `{}` is meant is not said", segments.front()), otherwise);
  else
    work.reading.report(fault::unknown_result, span, fmt::format("`{}` is no result that is computed", segments.back()),
                        write_instead(segments.back(), known, otherwise));
  return nullptr;
}

std::optional<Address> read_one(WorkReading& work, Cursor& cursor, std::string_view after) {
  const Span span = cursor.here();
  const auto word = want_word(work.reading, cursor, after, "a result", "1A1.speed");
  if (!word) return {};
  const auto segments = resolved(work, *word, span);
  const ResultWord* result = segments ? result_of(work, *segments, span) : nullptr;
  if (!result) {
    cursor.skip_all();
    return {};
  }
  return Address{*segments, result->dimension, result->other};
}

}  // namespace

std::optional<Address> read_address(WorkReading& work, Cursor& cursor, std::string_view after) {
  auto address = read_one(work, cursor, after);
  while (address && cursor.take_sign("+")) {
    const auto next = read_one(work, cursor, "`+`");
    if (!next) return {};
    if (next->unit != address->unit) {
      work.reading.report(fault::unit_mismatch, cursor.whole(), "only results of one kind can be added", "add times to times, flows to flows");
      cursor.skip_all();
      return {};
    }
    address->segments.push_back("+");
    address->segments.insert(address->segments.end(), next->segments.begin(), next->segments.end());
  }
  return address;
}

std::optional<Quantity> read_result_value(WorkReading& work, Cursor& cursor, const Address& address) {
  const std::size_t mark = cursor.mark();
  const std::string purpose = fmt::format("`{}`", address.segments.back());
  if (address.unit == address.other) return read_quantity(work.reading, cursor, address.unit, purpose);
  const auto value = read_any_quantity(work.reading, cursor, purpose);
  if (!value || value->dimension == address.unit || value->dimension == address.other) return value;
  work.reading.report(fault::dimension_wrong, cursor.since(mark),
                      fmt::format("{} is {} or {}", purpose, name_of(address.unit), name_of(address.other)),
                      fmt::format("write {} or {}", wanted(address.unit), wanted(address.other)));
  cursor.skip_all();
  return {};
}

}  // namespace ferrule
