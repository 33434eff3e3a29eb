// The look of a finding: a drawing with a parts list. One key column holds line numbers, place letters and words.
#include <fmt/format.h>

#include <algorithm>

#include "checks/report/excerpt.hpp"
#include "checks/report/letters.hpp"
#include "checks/report/report.hpp"

namespace ferrule {
namespace {

constexpr std::size_t key_columns = 9;  // two blanks, then the key
const std::string under_the_key(key_columns, ' ');
constexpr std::size_t most_places = 20, most_states = 6, widest_excerpt = 200;

struct Page {
  const TextLook& look;
  std::string out;

  std::string painted(std::string_view codes, std::string_view text) const {
    return look.colour ? fmt::format("\x1b[{}m{}\x1b[0m", codes, text) : std::string(text);
  }
  void row(std::string_view key, const std::string& value) {
    if (value.empty()) return;
    const std::size_t room = look.width > key_columns + 20 ? look.width - key_columns : 20;
    out += "  " + painted("36", fmt::format("{:<{}}", key, key_columns - 2)) + wrapped(safe(value), room, under_the_key) + "\n";
  }
};

constexpr std::string_view colour_of[] = {"1;31", "1;33", "1;34"};

void head(Page& page, const Message& m) {
  const std::string indent(2, ' ');
  const std::string_view word = word_of(m.severity);
  const std::size_t room = std::max<std::size_t>(page.look.width, 40) - word.size() - 2;
  page.out += page.painted(colour_of[static_cast<int>(m.severity)], word) + "  " + wrapped(safe(m.sentence), room, indent) + "\n";
}

std::string at_of(const Sources& sources, Span span) {
  const Source& source = sources[span.file];
  const Position at = position_of(source, span.begin);
  return fmt::format("{}:{}:{}", safe(source.path), at.line, at.column);
}

std::string name_and_code(const Message& m) { return fmt::format("{} ({})", m.rule, m.code); }

void excerpt(Page& page, const Sources& sources, const Message& m, std::uint32_t file) {
  const std::size_t width = std::min(std::max<std::size_t>(page.look.width, 40) - key_columns, widest_excerpt);
  for (const MarkedLine& line : marked_lines(sources[file], file, m.places, width)) {
    page.out += fmt::format("  {:<6} {}\n", line.line, line.text);
    for (const std::string& marks : line.marks)
      page.out += under_the_key + page.painted(colour_of[static_cast<int>(m.severity)], marks) + "\n";
  }
}

// A place in another file gets an `at` line of its own before it.
void places(Page& page, const Sources& sources, const Message& full) {
  Message m = full;
  if (m.places.size() > most_places) m.places.resize(most_places);
  if (m.places.empty()) return page.row("rule", name_and_code(m));
  std::vector<std::uint32_t> files;
  for (const Place& place : m.places)
    if (std::find(files.begin(), files.end(), place.span.file) == files.end()) files.push_back(place.span.file);
  for (const std::uint32_t file : files) {
    const auto first = std::find_if(m.places.begin(), m.places.end(), [&](const Place& p) { return p.span.file == file; });
    const std::string at = at_of(sources, first->span);
    const std::string name = file == files.front() ? "      " + name_and_code(m) : "";
    page.out += "  " + page.painted("36", "at     ") + at + name + "\n";
    excerpt(page, sources, m, file);
  }
  for (std::size_t i = 0; i < m.places.size(); ++i) page.row(letter_of(i), m.places[i].phrase);
  if (full.places.size() > most_places) page.row("", fmt::format("+ {} more places", full.places.size() - most_places));
}

std::string joined(const std::vector<std::string>& words, std::string_view between, std::size_t most) {
  std::string out;
  for (std::size_t i = 0; i < words.size() && i < most; ++i) out += (i ? std::string(between) : "") + words[i];
  if (words.size() > most) out += fmt::format(" and {} more", words.size() - most);
  return out;
}

std::string when_of(const Message& m) {
  if (m.states.empty()) return m.state_class;
  const std::string states = joined(m.states, ", ", most_states);
  return m.state_class.empty() || states == m.state_class ? states : fmt::format("{} ({})", states, m.state_class);
}

std::string figure_in_words(const Figure& f) {
  std::string out = f.name.empty() ? f.value : f.name + " " + f.value;
  if (!f.limit.empty()) out += ", limit " + f.limit;
  return f.origin.empty() ? out : fmt::format("{} ({})", out, f.origin);
}

void finding(Page& page, const Sources& sources, const Message& m) {
  head(page, m);
  places(page, sources, m);
  page.row("when", when_of(m));
  page.row("path", joined(m.trail, " > ", 40));
  for (const Figure& figure : m.values) page.row("value", figure_in_words(figure));
  page.row("limit", m.limit_source);
  page.row("fix", m.fix);
  page.row("hides", m.hides);
  page.row("taken", m.accepted.empty() ? "" : "accepted: " + m.accepted);
  if (!page_of(m.code).empty()) page.row("more", "ferrule explain " + m.code);
  page.out += "\n";
}

void verdict(Page& page, const Verdict& v) {
  const std::string name = fmt::format("{} ({}){}", v.rule, v.code, v.subject.empty() ? "" : " " + v.subject);
  page.out += fmt::format("{}: {}\n", word_of(v.outcome), safe(name));
  page.row("", v.because);
}

void verdicts(Page& page, const std::vector<Checked>& all) {
  std::size_t shown = 0, left = 0;
  for (const Checked& checked : all)
    for (const Verdict& v : checked.verdicts) {
      if (v.outcome == Outcome::pass) continue;
      if (page.look.most && shown >= page.look.most) ++left;
      else verdict(page, v), ++shown;
    }
  if (left) page.out += fmt::format("and {} more without a verdict (--max 0 shows all)\n", left);
  if (shown) page.out += "\n";
}

void cautions(Page& page, const std::vector<Checked>& all) {
  std::vector<std::string> said;
  for (const Checked& checked : all)
    for (const std::string& caution : checked.cautions)
      if (std::find(said.begin(), said.end(), caution) == said.end()) said.push_back(caution);
  for (const std::string& caution : said) page.row("care", caution);
  if (!said.empty()) page.out += "\n";
}

void left_out(Page& page, const std::array<std::size_t, 3>& left) {
  constexpr std::string_view plural[] = {"errors", "warnings", "advice"};
  for (std::size_t i = 0; i < left.size(); ++i)
    if (left[i]) page.out += fmt::format("and {} more {} (--max 0 shows all)\n", left[i], plural[i]);
}

}  // namespace

std::string as_text(const std::vector<Checked>& all, const TextLook& look) {
  Page page{look, {}};
  std::array<std::size_t, 3> shown{}, left{};
  for (const Checked& checked : all)
    for (const Message& m : checked.messages) {
      if (!m.masked_by.empty() || (!m.accepted.empty() && !look.show_accepted)) continue;
      const auto severity = static_cast<std::size_t>(m.severity);
      if (look.most && shown[severity] >= look.most) { ++left[severity]; continue; }
      ++shown[severity];
      finding(page, *checked.sources, m);
    }
  left_out(page, left);
  verdicts(page, all);
  cautions(page, all);
  return without_log_commands(page.out + footer(all) + "\n");
}

}  // namespace ferrule
