// SARIF 2.1.0 for code scanning. Fields and their order follow the standard's sections 3.13 (log), 3.19 (tool), 3.27 (result).
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include <nlohmann/json.hpp>

#include "checks/report/letters.hpp"
#include "checks/report/report.hpp"

namespace ferrule {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view schema_id = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
constexpr std::string_view levels[] = {"error", "warning", "note"};
constexpr std::size_t longest_description = 1024, most_results = 5000, most_steps = 1000;

// In `message.text` braces are placeholders and brackets are links (3.11.5, 3.11.6), so names escape them.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : safe(text)) {
    if (c == '{' || c == '}') out += c;
    if (c == '[' || c == ']' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string uri_of(std::string_view path) {
  std::string out;
  for (const char c : path) {
    const bool plain = std::isalnum(static_cast<unsigned char>(c)) || std::string_view("-._~/").find(c) != std::string_view::npos;
    out += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

Json artifact(std::string_view path) { return {{"uri", uri_of(path)}, {"uriBaseId", "SRCROOT"}}; }

Json physical(const Sources& sources, Span span) {
  const Source& source = sources[span.file];
  const Position from = position_of(source, span.begin), to = position_of(source, span.end);
  const Json region = {{"startLine", from.line}, {"startColumn", from.column}, {"endLine", to.line}, {"endColumn", to.column}};
  return {{"artifactLocation", artifact(source.path)}, {"region", region}};
}

Json location(const Checked& checked, const Message& m) {
  Json out = m.places.empty() ? Json{{"physicalLocation", {{"artifactLocation", artifact(checked.file)}, {"region", {{"startLine", 1}}}}}}
                              : Json{{"physicalLocation", physical(*checked.sources, m.places.front().span)}};
  if (!m.subject.empty()) out["logicalLocations"] = Json::array({Json{{"fullyQualifiedName", safe(m.subject)}, {"kind", "element"}}});
  return out;
}

std::string text_of(const Message& m) {
  std::string out = escaped(m.sentence);
  if (!out.empty() && out.back() != '.') out += '.';
  for (std::size_t i = 1; i < m.places.size(); ++i)
    if (!m.places[i].phrase.empty()) out += fmt::format(" See [{}]({}).", escaped(m.places[i].phrase), i + 1);
  if (!m.fix.empty()) out += " What to write instead: " + escaped(m.fix) + ".";
  return out;
}

Json related(const Checked& checked, const Message& m) {
  Json out = Json::array();
  for (std::size_t i = 1; i < m.places.size(); ++i)
    out.push_back({{"id", i + 1},
                   {"physicalLocation", physical(*checked.sources, m.places[i].span)},
                   {"message", {{"text", m.places[i].phrase.empty() ? "also here" : escaped(m.places[i].phrase)}}}});
  return out;
}

Json flow_of(const Checked& checked, const Message& m) {
  Json steps = Json::array();
  for (std::size_t i = 0; i < m.trail.size() && i < most_steps; ++i) {
    Json step = location(checked, m);
    step["logicalLocations"] = Json::array({Json{{"fullyQualifiedName", safe(m.trail[i])}, {"kind", "element"}}});
    step["message"] = {{"text", escaped(m.trail[i])}};
    steps.push_back({{"location", step}});
  }
  return Json::array({Json{{"threadFlows", Json::array({Json{{"locations", steps}}})}}});
}

struct RuleEntry {
  std::string name;
  Severity severity;
};
using RuleTable = std::map<std::string, RuleEntry>;  // by code

RuleTable rule_table(const std::vector<Checked>& all) {
  RuleTable table;
  for (const Rule* rule : rules()) table[std::string(rule->code)] = {std::string(rule->name), rule->severity};
  for (const Checked& checked : all)
    for (const Message& m : checked.messages) table.try_emplace(m.code, RuleEntry{m.rule, m.severity});
  return table;
}

std::string claim_of(std::string_view page, const std::string& name) {
  const std::size_t body = page.find("\n\n");
  if (!page.starts_with("# ") || body == std::string_view::npos) return name;
  const std::size_t end = std::min(page.find("\n\n", body + 2), page.size());
  std::string claim(page.substr(body + 2, end - body - 2));
  std::replace(claim.begin(), claim.end(), '\n', ' ');
  return claim.substr(0, longest_description);
}

Json descriptor(const std::string& code, const RuleEntry& entry) {
  const std::string page(page_of(code));
  const std::string claim = claim_of(page, entry.name);
  const std::string help = page.empty() ? entry.name : page;
  const std::string_view problem = entry.severity == Severity::advice ? "recommendation" : word_of(entry.severity);
  return {{"id", code},
          {"name", entry.name},
          {"shortDescription", {{"text", claim}}},
          {"fullDescription", {{"text", claim}}},
          {"help", {{"text", help}, {"markdown", help}}},
          {"defaultConfiguration", {{"level", levels[static_cast<int>(entry.severity)]}}},
          {"properties", {{"tags", {"hydraulics"}}, {"precision", "high"}, {"problem.severity", problem}}}};
}

Json result(const Checked& checked, const Message& m, const std::string& identity, std::size_t rule_index) {
  Json out = {{"ruleId", m.code},
              {"ruleIndex", rule_index},
              {"level", levels[static_cast<int>(m.severity)]},
              {"kind", "fail"},
              {"message", {{"text", text_of(m)}}},
              {"locations", Json::array({location(checked, m)})}};
  if (m.places.size() > 1) out["relatedLocations"] = related(checked, m);
  if (!m.trail.empty()) out["codeFlows"] = flow_of(checked, m);
  out["partialFingerprints"] = {{"ferruleIdentity/v1", identity}};
  return out;
}

struct Open {
  const Checked* checked;
  const Message* message;
  std::string identity;
};

// Accepted and masked findings stay out: services would open alerts for them.
std::vector<Open> open_findings(const std::vector<Checked>& all) {
  std::vector<Open> open;
  for (const Checked& checked : all) {
    const std::vector<std::string> identities = identities_of(checked);
    for (std::size_t i = 0; i < checked.messages.size(); ++i)
      if (checked.messages[i].masked_by.empty() && checked.messages[i].accepted.empty())
        open.push_back({&checked, &checked.messages[i], identities[i]});
  }
  return open;
}

// Services show this many; the worst come first when some must go, and a notification says how many went.
Json cut_to_limit(std::vector<Open>& open) {
  if (open.size() <= most_results) return Json::array();
  std::stable_sort(open.begin(), open.end(), [](const Open& a, const Open& b) { return a.message->severity < b.message->severity; });
  const std::size_t cut = open.size() - most_results;
  open.resize(most_results);
  const std::string text = fmt::format("{} more findings are left out: services show {} at most", cut, most_results);
  return Json::array({Json{{"level", "warning"}, {"message", {{"text", text}}}}});
}

}  // namespace

std::string as_sarif(const std::vector<Checked>& all, std::string_view version, std::string_view project) {
  const RuleTable table = rule_table(all);
  Json descriptors = Json::array(), results = Json::array();
  for (const auto& [code, entry] : table) descriptors.push_back(descriptor(code, entry));
  std::vector<Open> open = open_findings(all);
  const Json notifications = cut_to_limit(open);
  for (const Open& o : open)
    results.push_back(result(*o.checked, *o.message, o.identity, std::distance(table.begin(), table.find(o.message->code))));
  Json driver = {{"name", "Ferrule"}, {"semanticVersion", version}, {"rules", descriptors}};
  Json run = {{"tool", {{"driver", driver}}},
              {"automationDetails", {{"id", fmt::format("ferrule/{}/", safe(project))}}},
              {"columnKind", "unicodeCodePoints"},
              {"results", results}};
  if (!notifications.empty())
    run["invocations"] = Json::array({Json{{"executionSuccessful", true}, {"toolExecutionNotifications", notifications}}});
  const Json log = {{"$schema", schema_id}, {"version", "2.1.0"}, {"runs", Json::array({run})}};
  return log.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace ferrule
