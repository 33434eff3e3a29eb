#include "checks/annotated.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <regex>

#include "compiler/driver/judged.hpp"
#include "support/files.hpp"

namespace ferrule::test {
namespace {

using tests::lines_of;

bool is_expectation(const std::string& line) {
  static const std::regex place(R"(^# *[A-Z][0-9]*~* ((error|warning|advice) [A-Z]-[0-9]+ )?".*"$)");
  static const std::regex verdict(R"(^# (passed on assumption|not proved|not checked) [A-Z]-[0-9]+ .*$)");
  return std::regex_match(line, place) || std::regex_match(line, verdict);
}

// `#` takes the first column, so a place that begins there loses one.
std::string drawn(std::uint32_t column, std::size_t width, char letter, const std::string& words) {
  if (column <= 1) column = 2, width = width > 1 ? width - 1 : 1;
  std::string out = "#" + std::string(column - 2, ' ') + letter;
  if (width > 1) out.append(width - 1, '~');
  return out + " " + words;
}

std::string quoted(const std::string& text) { return "\"" + text + "\""; }

void draw(const Sources& sources, const Message& m, std::uint32_t file, std::multimap<std::uint32_t, std::string>& under) {
  for (std::size_t i = 0; i < m.places.size() && i < 26; ++i) {
    const Place& place = m.places[i];
    if (place.span.file != file || (i > 0 && place.phrase.empty())) continue;
    const Position at = position_of(sources[file], place.span.begin);
    const LineText line = line_around(sources[file], place.span.begin);
    const std::size_t end = std::min<std::size_t>(place.span.end, line.begin + line.text.size());
    const std::string head = std::string(word_of(m.severity)) + " " + m.code + " ";
    const std::string words = i == 0 ? head + quoted(m.sentence) : quoted(place.phrase);
    under.emplace(at.line, drawn(at.column, end > place.span.begin ? end - place.span.begin : 1, static_cast<char>('A' + i), words));
  }
}

}  // namespace

std::string bare(const std::string& text) {
  std::string out;
  for (const std::string& line : lines_of(text))
    if (!is_expectation(line)) out += line + "\n";
  return out;
}

std::string drawn_under(const Sources& sources, const Messages& messages, std::uint32_t file, const std::string& text) {
  std::multimap<std::uint32_t, std::string> under;
  for (const Message& m : messages)
    if (m.masked_by.empty() && m.accepted.empty()) draw(sources, m, file, under);
  std::string annotated;
  std::uint32_t number = 0;
  for (const std::string& line : lines_of(text)) {
    annotated += line + "\n";
    const auto [first, last] = under.equal_range(++number);
    for (auto at = first; at != last; ++at) annotated += at->second + "\n";
  }
  return annotated;
}

bool is_writing() {
  const char* wish = std::getenv("FERRULE_TESTS");
  return wish && std::string_view(wish) == "write";
}

Found found_in(const std::string& path, const std::string& text) {
  Compiled compiled{std::make_unique<Disk>(FERRULE_SOURCE_DIR), nullptr, path, FERRULE_SOURCE_DIR};
  compiled.compilation = compile(*compiled.disk, path, text);
  Checked checked = judged(compiled, "2026-01-01");
  const Sources& sources = compiled.compilation->sources;
  std::uint32_t file = 0;
  while (file < sources.size() && sources[file].path != path) ++file;
  Found found{checked.messages, checked.verdicts, drawn_under(sources, checked.messages, file, text)};
  for (const Verdict& v : checked.verdicts)
    if (v.outcome != Outcome::pass)
      found.annotated += "# " + std::string(word_of(v.outcome)) + " " + v.code + " " + v.subject + ": " + v.because + "\n";
  return found;
}

}  // namespace ferrule::test
