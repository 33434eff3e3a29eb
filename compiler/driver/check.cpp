// ferrule check: what is wrong, and what could not be proved.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <optional>

#include "checks/report/letters.hpp"
#include "compiler/driver/judged.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/driver/outputs.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule check press.fer", "findings as text; exit code 1 if there is an error"},
    {"ferrule check machines/ --fail-on warning --strict", "every .fer file of a folder; what could not be proved fails too"},
    {"ferrule check press.fer --report text --report sarif=press.sarif", "text to the log and a file for code scanning"},
};
constexpr Option options[] = {
    {"--report", "FORMAT[=PATH]", "text, lines, json or sarif; may be given several times"},
    {"--fail-on", "LEVEL", "error (default), warning, advice or never"},
    {"--strict", "", "fail also on not proved, not checked and passed on assumption"},
    {"--max", "N", "findings shown of each severity (100; 0 shows all)"},
    {"--width", "N", "columns of the text report"},
    {"--color", "WHEN", "auto (default), always or never"},
    {"--show", "accepted", "show accepted findings too"},
    {"--as-of", "DATE", "the day that counts as today for `until`"},
};

struct Wish {
  std::string format, path;  // path empty: standard output
};

struct Settings {
  std::vector<Wish> reports;
  std::optional<Severity> fail_on;
  bool strict = false;
  TextLook look;
  std::string today;
  std::string fault;
};

bool one_of(std::string_view word, const std::vector<std::string>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::string not_one_of(std::string_view option, const std::string& word, const std::vector<std::string>& words) {
  return fmt::format("{} is {}, not {}{}", option, fmt::join(words, ", "), word, did_you_mean(word, words));
}

std::optional<std::size_t> number(const std::string& word) {
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  return error == std::errc{} && end == word.data() + word.size() ? std::optional(value) : std::nullopt;
}

void read_reports(const Call& call, Settings& settings) {
  static const std::vector<std::string> formats{"text", "lines", "json", "sarif"};
  const auto given = call.options.find("--report");
  if (given == call.options.end()) settings.reports = {{"text", ""}};
  else
    for (const std::string& word : given->second) {
      const std::size_t sign = word.find('=');
      Wish wish{word.substr(0, sign), sign == std::string::npos ? "" : word.substr(sign + 1)};
      if (!one_of(wish.format, formats)) settings.fault = not_one_of("--report", wish.format, formats);
      settings.reports.push_back(std::move(wish));
    }
  const auto to_output = [](const Wish& w) { return w.path.empty() && w.format != "text"; };
  if (std::count_if(settings.reports.begin(), settings.reports.end(), to_output) > 1)
    settings.fault = "only one report can go to standard output: give the others a path, --report json=report.json";
}

void read_levels(const Call& call, Settings& settings) {
  static const std::vector<std::string> levels{"error", "warning", "advice", "never"}, colours{"auto", "always", "never"};
  const std::string level = call.value("--fail-on", "error"), colour = call.value("--color", "auto");
  const auto found = std::find(levels.begin(), levels.end(), level);
  if (found == levels.end()) settings.fault = not_one_of("--fail-on", level, levels);
  else if (level != "never") settings.fail_on = static_cast<Severity>(found - levels.begin());
  if (!one_of(colour, colours)) settings.fault = not_one_of("--color", colour, colours);
  if (call.has("--show") && call.value("--show") != "accepted") settings.fault = "--show knows only accepted";
}

Settings settings_of(const Call& call, const Talk& talk) {
  Settings settings;
  settings.strict = call.has("--strict");
  settings.today = call.value("--as-of", talk.today);
  read_reports(call, settings);
  read_levels(call, settings);
  const std::string colour = call.value("--color", "auto");
  const auto most = number(call.value("--max", "100")), width = number(call.value("--width", std::to_string(talk.columns)));
  if (!most) settings.fault = "--max needs a number, for example --max 20";
  if (!width || *width < 20) settings.fault = "--width needs a number of columns, 20 or more";
  settings.look = {width.value_or(100), colour == "always" || (colour == "auto" && talk.terminal), most.value_or(100), call.has("--show")};
  return settings;
}

std::string report(const std::vector<Checked>& all, const Settings& settings, const Wish& wish, const std::string& project) {
  if (wish.format == "lines") return as_lines(all, settings.look.most);
  if (wish.format == "json") return as_json(all, version());
  if (wish.format == "sarif") return as_sarif(all, version(), project);
  TextLook look = settings.look;
  if (!wish.path.empty()) look.colour = false;
  return as_text(all, look);
}

bool fails_strictly(const Verdict& verdict, Severity fail_on) {
  if (verdict.outcome == Outcome::pass) return false;
  for (const Rule* rule : rules())
    if (rule->code == verdict.code) return rule->severity <= fail_on;
  return true;
}

bool fails(const std::vector<Checked>& all, const Settings& settings) {
  if (!settings.fail_on) return false;
  for (const Checked& checked : all) {
    for (const Message& m : checked.messages)
      if (m.masked_by.empty() && m.accepted.empty() && m.severity <= *settings.fail_on) return true;
    for (const Verdict& v : checked.verdicts)
      if (settings.strict && fails_strictly(v, *settings.fail_on)) return true;
  }
  return false;
}

// Text goes to standard error when another report takes standard output.
bool output_is_taken(const Settings& settings) {
  return std::any_of(settings.reports.begin(), settings.reports.end(), [](const Wish& w) { return w.path.empty() && w.format != "text"; });
}

int put_reports(const std::vector<Checked>& all, const Settings& settings, const std::string& project, Talk& talk) {
  int code = exit_code::done;
  for (const Wish& wish : settings.reports) {
    const std::string bytes = report(all, settings, wish, project);
    if (wish.path.empty()) {
      (wish.format == "text" && output_is_taken(settings) ? talk.err : talk.out) += bytes;
    } else {
      code = std::max(code, put_file(wish.path, bytes, talk));
    }
  }
  return code;
}

// A part included by several circuits is faulty once, not once for each.
void drop_repeats(std::vector<Checked>& all) {
  std::vector<std::string> seen;
  for (Checked& checked : all)
    std::erase_if(checked.messages, [&](const Message& m) {
      if (!m.subject.empty() || m.places.empty()) return false;
      const Span at = m.places.front().span;
      std::string key = fmt::format("{}:{}:{}:{}", (*checked.sources)[at.file].path, at.begin, m.code, m.sentence);
      const auto place = std::lower_bound(seen.begin(), seen.end(), key);
      if (place != seen.end() && *place == key) return true;
      seen.insert(place, std::move(key));
      return false;
    });
}

int run_check(const Call& call, Talk& talk) {
  const Settings settings = settings_of(call, talk);
  if (!settings.fault.empty()) return say(talk, settings.fault, exit_code::called_wrongly);
  int code = exit_code::done;
  std::vector<Compiled> kept;  // findings point into them
  std::vector<Checked> all;
  for (const std::string& file : call.files) {
    Compiled one = compiled(file, talk);
    if (!one.compilation || one.compilation->unreadable) code = exit_code::unreadable;
    if (!one.compilation) continue;
    all.push_back(judged(one, settings.today));
    kept.push_back(std::move(one));
  }
  if (all.empty()) return code;
  if (all.size() > 1) drop_repeats(all);
  const std::string project = std::filesystem::path(kept.front().root).filename().string();
  code = std::max(code, put_reports(all, settings, project, talk));
  talk.kept = std::make_shared<const std::vector<Compiled>>(std::move(kept));
  return std::max(code, fails(all, settings) ? exit_code::found : exit_code::done);
}

}  // namespace

extern const Verb check_verb;
const Verb check_verb{"check", "FILES", "report what is wrong and what could not be proved", examples, options, run_check};

}  // namespace ferrule
