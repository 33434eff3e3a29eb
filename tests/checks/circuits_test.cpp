// Every circuit draws the notes its comments promise. FERRULE_TESTS=write rewrites them; the difference is reviewed like code.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "checks/annotated.hpp"
#include "checks/machinery/rule.hpp"
#include "support/files.hpp"

namespace {

using namespace ferrule;
namespace fs = std::filesystem;

using tests::files_below, tests::in_project, tests::project_text;

std::vector<std::string> all_circuits() {
  std::vector<std::string> all = files_below("checks", ".fer");
  for (const std::string& path : files_below("tests/circuits", ".fer")) all.push_back(path);
  return all;
}

bool has(const Messages& messages, std::string_view rule) {
  return std::any_of(messages.begin(), messages.end(), [&](const Message& m) { return m.rule == rule && m.masked_by.empty(); });
}

}  // namespace

TEST_CASE("every circuit draws the notes its comments promise") {
  for (const std::string& path : all_circuits()) {
    DYNAMIC_SECTION(path) {
      const std::string expected = project_text(path);
      const test::Found found = test::found_in(path, test::bare(expected));
      if (test::is_writing()) std::ofstream(in_project(path), std::ios::binary) << found.annotated;
      else CHECK(found.annotated == expected);
    }
  }
}

TEST_CASE("a rule's bad circuits show its finding, good ones and traps are silent about it") {
  for (const std::string& path : files_below("checks", ".fer")) {
    DYNAMIC_SECTION(path) {
      const std::string rule = fs::path(path).parent_path().filename().string(), name = fs::path(path).filename().string();
      const test::Found found = test::found_in(path, test::bare(project_text(path)));
      CHECK(has(found.messages, rule) == name.starts_with("bad"));
      if (name.starts_with("good"))
        CHECK(std::none_of(found.messages.begin(), found.messages.end(), [](const Message& m) { return m.severity != Severity::advice; }));
    }
  }
}

TEST_CASE("every rule has a page, a bad circuit and a good one, and sits in a folder of its name") {
  REQUIRE_FALSE(rules().empty());
  const std::vector<std::string> circuits = files_below("checks", ".fer");
  for (const Rule* rule : rules()) {
    INFO(rule->name);
    CHECK_FALSE(page_of(rule->code).empty());
    CHECK(page_of(rule->code) == page_of(rule->name));
    CHECK(page_of(rule->code).starts_with("# " + std::string(rule->name) + " (" + std::string(rule->code) + ")"));
    for (const char* wanted : {"/bad.fer", "/good.fer"})
      CHECK(std::any_of(circuits.begin(), circuits.end(), [&](const std::string& path) { return path.ends_with("/" + std::string(rule->name) + wanted); }));
  }
}
