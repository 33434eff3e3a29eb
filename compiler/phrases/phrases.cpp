#include "compiler/phrases/phrases.hpp"

#include <set>

namespace ferrule {

extern const std::string_view phrases_text;   // generated from stdlib/phrases.txt

namespace {

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t\r") + 1 - begin);
}

const std::string* found(std::string_view key, std::string_view language) {
  const auto entry = phrase_table().find(key);
  if (entry == phrase_table().end()) return nullptr;
  for (const std::string_view wanted : {language, std::string_view("en")})
    if (const auto text = entry->second.find(wanted); text != entry->second.end()) return &text->second;
  return nullptr;
}

std::string filled(std::string_view text, std::initializer_list<std::string_view> values) {
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool gap = text[at] == '{' && at + 2 < text.size() && text[at + 2] == '}';
    const std::size_t index = gap ? static_cast<std::size_t>(text[at + 1] - '0') : values.size();
    if (index >= values.size()) {
      out += text[at];
      continue;
    }
    out += *(values.begin() + index);
    at += 2;
  }
  return out;
}

}  // namespace

PhraseTable phrase_table(std::string_view text) {
  PhraseTable table;
  std::string key;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (trimmed(line).empty() || line.front() == '#') continue;
    const std::size_t colon = line.find(':');
    if (line.front() != ' ') key = trimmed(line);
    else if (colon != std::string_view::npos) table[key][std::string(trimmed(line.substr(0, colon)))] = trimmed(line.substr(colon + 1));
  }
  return table;
}

const PhraseTable& phrase_table() {
  static const PhraseTable table = phrase_table(phrases_text);
  return table;
}

std::vector<std::string> phrase_languages() {
  std::set<std::string> languages;
  for (const auto& [key, texts] : phrase_table())
    for (const auto& [language, text] : texts) languages.insert(language);
  return {languages.begin(), languages.end()};
}

std::string Phrases::operator()(std::string_view key, std::initializer_list<std::string_view> values) const {
  const std::string* text = found(key, language_);
  return text == nullptr ? std::string(key) : filled(*text, values);
}

std::string Phrases::word(std::string_view group, std::string_view word) const {
  const std::string* text = found(std::string(group) + "." + std::string(word), language_);
  return std::string(text == nullptr ? word : std::string_view(*text));
}

}  // namespace ferrule
