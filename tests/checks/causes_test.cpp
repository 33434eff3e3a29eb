// Every cause that a rule names is met by a circuit of its folder, and every cause it reports is on its page.
#include <catch2/catch.hpp>

#include <filesystem>
#include <regex>
#include <set>

#include "checks/annotated.hpp"
#include "checks/machinery/rule.hpp"
#include "support/files.hpp"

using namespace ferrule;

namespace {

// The paragraph of the page that begins "Causes:" names them in backquotes.
std::set<std::string> causes_of_page(std::string_view page) {
  std::set<std::string> causes;
  const std::size_t begin = page.find("\nCauses:");
  if (begin == std::string_view::npos) return causes;
  const std::string paragraph(page.substr(begin, page.find("\n\n", begin) - begin));
  const std::regex quoted("`([a-z-]+)`");
  for (auto at = std::sregex_iterator(paragraph.begin(), paragraph.end(), quoted); at != std::sregex_iterator(); ++at) causes.insert((*at)[1]);
  return causes;
}

std::set<std::string> causes_found(const std::string& rule) {
  std::set<std::string> causes;
  for (const std::string& path : tests::files_below("checks", ".fer")) {
    if (path.find("/" + rule + "/") == std::string::npos) continue;
    const std::string text = tests::project_text(path);
    for (const Message& m : test::found_in(path, test::bare(text)).messages)
      if (m.rule == rule && !m.cause.empty()) causes.insert(m.cause);
  }
  return causes;
}

}  // namespace

TEST_CASE("every cause on a rule's page is met by a circuit, and no other is reported") {
  for (const Rule* rule : rules()) {
    INFO(rule->name);
    CHECK(causes_found(std::string(rule->name)) == causes_of_page(page_of(rule->name)));
  }
}
