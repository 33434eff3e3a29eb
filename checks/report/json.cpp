// The report for scripts. Its schema is report.schema.json beside this file; adding fields is compatible, anything else bumps `schema`.
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "checks/report/letters.hpp"
#include "checks/report/report.hpp"

namespace ferrule {
namespace {

using Json = nlohmann::ordered_json;

// Column in UTF-16 units, as editors' protocols count.
std::uint32_t utf16_column(const Source& source, std::uint32_t offset) {
  const LineText line = line_around(source, offset);
  std::uint32_t column = 1;
  for (std::size_t at = 0; at < line.text.size() && line.begin + at < offset;) {
    const Letter letter = letter_at(line.text, at);
    column += letter.code > 0xFFFF ? 2 : 1;
    at += letter.bytes;
  }
  return column;
}

Json point(const Source& source, std::uint32_t offset) {
  const Position at = position_of(source, offset);
  return {{"byte", offset}, {"line", at.line}, {"column", at.column}, {"utf16", utf16_column(source, offset)}};
}

Json place(const Sources& sources, const Place& p) {
  const Source& source = sources[p.span.file];
  return {{"file", source.path}, {"begin", point(source, p.span.begin)}, {"end", point(source, p.span.end)}, {"phrase", p.phrase}};
}

Json figure(const Figure& f) { return {{"name", f.name}, {"value", f.value}, {"limit", f.limit}, {"origin", f.origin}}; }

Json finding(const Checked& checked, const Message& m, const std::string& identity) {
  Json places = Json::array(), values = Json::array();
  for (const Place& p : m.places) places.push_back(place(*checked.sources, p));
  for (const Figure& f : m.values) values.push_back(figure(f));
  return {{"file", checked.file},
          {"code", m.code},
          {"rule", m.rule},
          {"severity", word_of(m.severity)},
          {"sentence", m.sentence},
          {"subject", m.subject},
          {"cause", m.cause},
          {"state_class", m.state_class},
          {"states", m.states},
          {"places", places},
          {"trail", m.trail},
          {"values", values},
          {"limit_source", m.limit_source},
          {"fix", m.fix},
          {"hides", m.hides},
          {"masked_by", m.masked_by},
          {"accepted", m.accepted},
          {"identity", identity}};
}

Json verdict(const Checked& checked, const Verdict& v) {
  return {{"file", checked.file}, {"code", v.code},  {"rule", v.rule}, {"subject", v.subject},
          {"outcome", word_of(v.outcome)}, {"because", v.because}};
}

Json totals(const Totals& t) {
  return {{"error", t.open[0]},   {"warning", t.open[1]},
          {"advice", t.open[2]},  {"accepted", t.accepted},
          {"masked", t.masked},   {"passed", t.verdicts[0]},
          {"passed_on_assumption", t.verdicts[1]}, {"not_proved", t.verdicts[2]},
          {"not_checked", t.verdicts[3]}};
}

}  // namespace

std::string as_json(const std::vector<Checked>& all, std::string_view version) {
  Json findings = Json::array(), verdicts = Json::array(), files = Json::array();
  for (const Checked& checked : all) {
    files.push_back({{"file", checked.file}, {"circuit", checked.circuit}, {"cautions", checked.cautions}});
    const std::vector<std::string> identities = identities_of(checked);
    for (std::size_t i = 0; i < checked.messages.size(); ++i) findings.push_back(finding(checked, checked.messages[i], identities[i]));
    for (const Verdict& v : checked.verdicts) verdicts.push_back(verdict(checked, v));
  }
  const Json report = {{"ferrule", version}, {"schema", 1},          {"files", files},
                       {"findings", findings}, {"verdicts", verdicts}, {"totals", totals(totals_of(all))}};
  // Bytes that are no UTF-8 become U+FFFD: a report must stay readable whatever the text held.
  return report.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace ferrule
