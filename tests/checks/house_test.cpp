// House rules that a test can hold.
#include <catch2/catch.hpp>

#include <filesystem>
#include <set>
#include <sstream>

#include "checks/annotated.hpp"
#include "checks/machinery/accepts.hpp"
#include "compiler/driver/disk.hpp"
#include "compiler/library/library.hpp"
#include "compiler/model/element.hpp"
#include "support/files.hpp"

using namespace ferrule;
namespace fs = std::filesystem;

namespace {

// Kinds of the library whose names have a hyphen; one-word names (`tube`, `line`) are words of much else.
std::vector<std::string> kinds() {
  Sources sources;
  Messages messages;
  Disk disk{FERRULE_SOURCE_DIR};
  Library library(sources, messages, disk.library());
  std::vector<std::string> names;
  for (const std::string& name : library.definition_names())
    if (name.find('-') != std::string::npos && !element_named(name)) names.push_back(name);
  return names;
}

// The code without its comments, which may name examples.
std::string code_of(const std::string& text) {
  std::string code;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) code += line.substr(0, line.find("// ")) + "\n";
  return code;
}

}  // namespace

TEST_CASE("C++ knows elements and roles, never a component by its name") {
  const std::vector<std::string> names = kinds();
  REQUIRE(names.size() > 50);
  for (const char* folder : {"grammar", "compiler", "checks", "render"})
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(FERRULE_SOURCE_DIR) / folder)) {
      if (entry.path().extension() != ".cpp" && entry.path().extension() != ".hpp") continue;
      const std::string code = code_of(tests::text_of(entry.path()));
      for (const std::string& name : names) {
        INFO(entry.path().filename() << " names " << name << ": ask for a role instead");
        CHECK(code.find("\"" + name + "\"") == std::string::npos);
      }
    }
}

TEST_CASE("codes and names of rules and of accepts are given once") {
  std::set<std::string_view> seen;
  for (const Rule* rule : rules()) CHECK((seen.insert(rule->code).second && seen.insert(rule->name).second));
  for (const Keeping& fault : keeping_faults()) CHECK((seen.insert(fault.code).second && seen.insert(fault.rule).second));
}
