#include "grammar/parse.hpp"

#include <algorithm>
#include <optional>

#include "grammar/blocks.hpp"
#include "grammar/characters.hpp"

namespace ferrule {
namespace {

constexpr std::size_t largest_file = 4u << 20;  // bytes
constexpr std::size_t most_faults = 1000;       // a file with more is no circuit, and reporting has to stay bounded

std::optional<Fault> reason_to_refuse(std::string_view text, std::uint32_t file) {
  const auto at = [file](std::size_t begin, std::size_t end) {
    return Span{file, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
  };
  if (text.size() > largest_file) return Fault{FaultKind::file_too_big, at(largest_file, largest_file + 1), {}};
  if (const auto zero = text.find('\0'); zero != std::string_view::npos) return Fault{FaultKind::not_text, at(zero, zero + 1), {}};
  const std::size_t bad = first_byte_that_is_not_utf8(text);
  if (bad < text.size()) return Fault{FaultKind::not_utf8, at(bad, bad + 1), {}};
  return std::nullopt;
}

Parsed refused(const Sources& sources, std::uint32_t file, const Fault& why) {
  Parsed parsed;
  parsed.tree.file = file;
  parsed.tree.blocks.push_back({{file, 0, 0}, 0, 0, false});
  parsed.messages.push_back(message_of(why, sources));
  parsed.refused = true;
  return parsed;
}

// Of two readings of one text the one that mends fewer braces is nearer to what the author meant; the layout, which shows
// the place of a slip better, wins a tie. Other faults don't count: a block that swallows the rest of the file hides some.
BlockReading best_reading(const Source& source, std::uint32_t file, std::span<const Token> tokens) {
  BlockReading by_braces = read_blocks(source, file, tokens, Witness::braces);
  if (by_braces.brace_faults == 0 || by_braces.too_deep) return by_braces;
  BlockReading by_layout = read_blocks(source, file, tokens, Witness::layout);
  return !by_layout.too_deep && by_layout.brace_faults <= by_braces.brace_faults ? std::move(by_layout) : std::move(by_braces);
}

Messages messages_of(std::vector<Fault> faults, const Sources& sources) {
  std::stable_sort(faults.begin(), faults.end(), [](const Fault& a, const Fault& b) { return a.at.begin < b.at.begin; });
  if (faults.size() > most_faults) {
    faults.resize(most_faults);
    faults.back() = {FaultKind::too_many_faults, faults.back().at, {}};
  }
  Messages messages;
  messages.reserve(faults.size());
  for (const Fault& fault : faults) messages.push_back(message_of(fault, sources));
  return messages;
}

}  // namespace

Parsed parse(const Sources& sources, std::uint32_t file) {
  const Source& source = sources[file];
  if (const auto why = reason_to_refuse(source.text, file)) return refused(sources, file, *why);
  BlockReading reading = best_reading(source, file, tokens_of(source.text));
  if (reading.too_deep) return refused(sources, file, reading.faults.front());
  return {std::move(reading.tree), messages_of(std::move(reading.faults), sources), false};
}

}  // namespace ferrule
