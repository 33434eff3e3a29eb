// JSON by its own schema, SARIF by the standard's and by the stricter list of what code scanning needs.
#include <catch2/catch.hpp>

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "checks/report/report.hpp"

using namespace ferrule;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string text = "let a = 1\nrelief-valve 0V1 { setting 260 bar }\n";

Message odd_message() {
  Message m;
  m.code = "P-01", m.rule = "pump-outlet-unprotected";
  m.sentence = "`{x}` [a](b) \\ \xE2\x80\xAE \xF0\x9F\x98\x80 reaches 262 bar";
  m.places = {{{0, 36, 43}, "set [here]"}, {{0, 10, 22}, "this {one}"}};
  m.subject = "0V1", m.state_class = "rest", m.states = {"rest"}, m.trail = {"0P1.P", "0V1.P"};
  m.values = {{"p", "262 bar", "215 bar", "derived"}}, m.fix = "less";
  return m;
}

std::vector<Checked> checked(const Sources& sources) {
  Message accepted = odd_message(), without_place = odd_message();
  accepted.accepted = "argued";
  without_place.places.clear(), without_place.subject = "0V2", without_place.code = "N-01", without_place.rule = "unknown-kind";
  return {Checked{&sources, sources[0].path, "Odd \xFF title", {odd_message(), accepted, without_place},
                  {{"L-01", "line-undersized", "L1", Outcome::not_checked, "needs the bore"}}, {"care"}}};
}

struct Written {
  fs::path path;
  explicit Written(const std::string& bytes) {
    std::string name = (fs::temp_directory_path() / "ferrule-report-XXXXXX").string();
    const int file = mkstemp(name.data());
    REQUIRE(file >= 0);
    close(file);
    path = name;
    std::ofstream(path, std::ios::binary) << bytes;
  }
  ~Written() { fs::remove(path); }
};

// By the validator of the Debian package python3-jsonschema.
int validated(const std::string& schema, const std::string& draft, const fs::path& report) {
  const std::string program = "import json,sys,jsonschema as j; s=json.load(open(sys.argv[1])); j." + draft +
                              "(s,format_checker=j.FormatChecker()).validate(json.load(open(sys.argv[2])))";
  return std::system(("/usr/bin/python3 -W ignore -c '" + program + "' " + std::string(FERRULE_SOURCE_DIR) + "/" + schema + " " + report.string()).c_str());
}

}  // namespace

TEST_CASE("the JSON report keeps its schema, whatever the text holds") {
  Sources sources;
  sources.add("odd \xC3\xB8.fer", text);
  const std::string bytes = as_json(checked(sources), "0.1.0");
  const Written file(bytes);
  CHECK(validated("checks/report/report.schema.json", "Draft7Validator", file.path) == 0);
  const Json report = Json::parse(bytes);
  CHECK(report["totals"]["error"] == 2);
  CHECK(report["totals"]["accepted"] == 1);
  CHECK(report["findings"][0]["places"][0]["begin"]["line"] == 2);
  CHECK(report["findings"][0]["identity"] != report["findings"][1]["identity"]);
}

TEST_CASE("the SARIF report is valid by the standard's schema") {
  const std::string schema = "tests/reference/sarif-2.1.0-schema.json";
  if (!fs::exists(std::string(FERRULE_SOURCE_DIR) + "/" + schema)) {
    WARN("the schema was taken out by a packager; not validated");
    return;
  }
  Sources sources;
  sources.add("odd [\xC3\xB8] a b.fer", text);
  const Written file(as_sarif(checked(sources), "0.1.0", "odd"));
  CHECK(validated(schema, "Draft4Validator", file.path) == 0);
}

TEST_CASE("the SARIF report has what code scanning needs") {
  Sources sources;
  sources.add("odd [\xC3\xB8] a b.fer", text);
  const Json log = Json::parse(as_sarif(checked(sources), "0.1.0", "odd"));
  const Json& run = log["runs"][0];
  const Json& rules = run["tool"]["driver"]["rules"];
  CHECK(run["columnKind"] == "unicodeCodePoints");
  CHECK(run["automationDetails"]["id"] == "ferrule/odd/");
  CHECK(run["results"].size() == 2);  // the accepted one stays out
  for (const Json& result : run["results"]) {
    CHECK(rules[result["ruleIndex"].get<std::size_t>()]["id"] == result["ruleId"]);
    CHECK(result["locations"].size() == 1);
    CHECK(result["partialFingerprints"]["ferruleIdentity/v1"].get<std::string>().size() == 32);
    const std::string uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"];
    CHECK(uri == "odd%20%5B%C3%B8%5D%20a%20b.fer");
  }
  const std::string words = run["results"][0]["message"]["text"];
  CHECK(words.starts_with("`{{x}}` \\[a\\](b) \\\\ <U+202E>"));
  CHECK(run["results"][0]["relatedLocations"][0]["id"] == 2);
  CHECK(std::is_sorted(rules.begin(), rules.end(), [](const Json& a, const Json& b) { return a["id"] < b["id"]; }));
  for (const Json& rule : rules) CHECK(rule["shortDescription"]["text"].get<std::string>().size() <= 1024);
}

TEST_CASE("same findings, same bytes") {
  Sources sources;
  sources.add("a.fer", text);
  CHECK(as_json(checked(sources), "1") == as_json(checked(sources), "1"));
  CHECK(as_sarif(checked(sources), "1", "p") == as_sarif(checked(sources), "1", "p"));
}
