#include "compiler/language/words.hpp"

#include <fmt/format.h>

namespace ferrule {
namespace {

void report_missing(Reading& reading, Cursor& cursor, std::string_view after, std::string_view wanted, std::string_view example) {
  // A broken term has its own message.
  if (cursor.done() || !cursor.at(TermKind::broken))
    reading.report(fault::word_expected, cursor.here(), fmt::format("{} needs {}", after, wanted), fmt::format("write `{}`", example));
  cursor.skip_all();
}

}  // namespace

std::string take_name(Cursor& cursor) {
  if (cursor.done() || (!cursor.at(TermKind::word) && !cursor.at(TermKind::number))) return {};
  return std::string(cursor.take().text);
}

std::optional<std::string> want_word(Reading& reading, Cursor& cursor, std::string_view after, std::string_view wanted,
                                     std::string_view example) {
  if (const Term* word = cursor.take_kind(TermKind::word)) return std::string(word->text);
  report_missing(reading, cursor, after, wanted, example);
  return {};
}

std::optional<std::string> want_name(Reading& reading, Cursor& cursor, std::string_view after, std::string_view wanted,
                                     std::string_view example) {
  std::string name = take_name(cursor);
  if (!name.empty()) return name;
  report_missing(reading, cursor, after, wanted, example);
  return {};
}

std::string take_text(Cursor& cursor) {
  const Term* text = cursor.take_kind(TermKind::text);
  return text ? unescaped(*text) : std::string{};
}

const Block* want_block(Reading& reading, Cursor& cursor, std::string_view statement, std::string_view example) {
  if (const Block* block = cursor.take_block()) return block;
  if (cursor.done() || !cursor.at(TermKind::broken))
    reading.report(fault::block_missing, cursor.done() ? cursor.whole() : cursor.here(),
                   fmt::format("{} needs a block in braces", statement), fmt::format("write `{}`", example));
  cursor.skip_all();
  return nullptr;
}

std::vector<std::string> take_names(Cursor& cursor) {
  std::vector<std::string> names;
  do {
    std::string name = take_name(cursor);
    if (name.empty()) break;
    names.push_back(std::move(name));
  } while (cursor.take_word("and"));
  return names;
}

std::optional<PortUse> port_use_named(std::string_view word) {
  static constexpr std::pair<std::string_view, PortUse> uses[] = {{"pilot", PortUse::pilot},
                                                                  {"drain", PortUse::drain},
                                                                  {"mechanical", PortUse::mechanical},
                                                                  {"electrical", PortUse::electrical}};
  for (const auto& [name, use] : uses)
    if (name == word) return use;
  return {};
}

bool is_port_name(std::string_view word) {
  return !word.empty() && ((word[0] >= 'A' && word[0] <= 'Z') || (word[0] >= '0' && word[0] <= '9'));
}

std::string all_ports(const Definition& definition) {
  std::string text;
  for (const PortSpec& port : definition.ports) {
    if (!text.empty()) text += ", ";
    text += "`" + port.name + "`" + (port.text.empty() ? "" : " (" + port.text + ")");
  }
  return text;
}

}  // namespace ferrule
