// Every code that the program can print is expected somewhere: by a circuit, or, where only a huge or binary text shows it, here.
#include <catch2/catch.hpp>

#include <regex>
#include <set>

#include "checks/annotated.hpp"
#include "checks/machinery/accepts.hpp"
#include "compiler/language/faults.hpp"
#include "compiler/text.hpp"
#include "grammar/faults.hpp"
#include "support/files.hpp"

using namespace ferrule;

namespace {

std::set<std::string> all_codes() {
  std::set<std::string> codes;
  for (const FaultPage& page : fault_pages()) codes.emplace(page.code);
  for (const TextFault* fault : text_faults()) codes.emplace(fault->code);
  for (const Rule* rule : rules()) codes.emplace(rule->code);
  for (const Keeping& fault : keeping_faults()) codes.emplace(fault.code);
  return codes;
}

std::set<std::string> codes_in_circuits() {
  std::set<std::string> codes;
  const std::regex expectation(R"(# *[A-Z][0-9]*~* (error|warning|advice) ([A-Z]-[0-9]+) )");
  for (const char* folder : {"checks", "tests/circuits"})
    for (const std::string& path : tests::files_below(folder, ".fer")) {
      const std::string text = tests::project_text(path);
      for (auto at = std::sregex_iterator(text.begin(), text.end(), expectation); at != std::sregex_iterator(); ++at) codes.insert((*at)[2]);
    }
  return codes;
}

std::set<std::string> codes_of(const Surroundings& surroundings, const std::string& text) {
  std::set<std::string> codes;
  const auto compilation = compile(surroundings, "main.fer", text);
  for (const Message& m : compilation->messages) codes.insert(m.code);
  return codes;
}

std::string repeated(const std::string& text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all += text;
  return all;
}

std::string many_steps(int count) {
  std::string steps;
  for (int i = 0; i < count; ++i) steps += "  step s" + std::to_string(i) + " { for 1 s }\n";
  return steps;
}

// Texts that no file of the project should hold, by the code that each one gets.
std::vector<std::pair<std::string, std::string>> extreme_texts() {
  std::string many_parts = "define ten \"ten gauges\" { assembly {";
  for (int i = 0; i < 10; ++i) many_parts += " gauge G" + std::to_string(i) + " { range 0 to 10 bar },";
  many_parts += " } }\n";
  std::string below = "ten";
  for (const char* level : {"hundred", "thousand", "myriad", "lakh", "million"}) {
    many_parts += std::string("define ") + level + " \"more\" { assembly {";
    for (int i = 0; i < 10; ++i) many_parts += " " + below + " K" + std::to_string(i) + " { },";
    many_parts += " } }\n", below = level;
  }
  return {{"T-01", std::string("reservoir\0 0Z1", 14)},
          {"T-02", "reservoir \xff 0Z1"},
          {"T-03", repeated("# a line of a very long text\n", 200000)},
          {"T-04", repeated("{", 200)},
          {"T-20", repeated("sheet ; A4\n", 1100)},
          {"M-10", many_parts + "million 1 { }\n"},
          {"M-13", "cycle {\n" + many_steps(2100) + "}\n"},
          {"M-11", "let x = " + repeated("(", 70) + "1 m" + repeated(")", 70) + "\n"}};
}

tests::Outside with_many_files() {
  tests::Outside surroundings;
  for (int i = 0; i < 2100; ++i) surroundings.files["f" + std::to_string(i) + ".fer"] = "\n";
  return surroundings;
}

}  // namespace

TEST_CASE("texts that no project should hold get their code") {
  for (const auto& [code, text] : extreme_texts()) {
    INFO(code);
    CHECK(codes_of(tests::surroundings(), text).contains(code));
  }
  std::string includes;
  for (int i = 0; i < 2100; ++i) includes += "include \"f" + std::to_string(i) + ".fer\"\n";
  CHECK(codes_of(with_many_files(), includes).contains("M-12"));
}

TEST_CASE("every code is expected by some circuit") {
  std::set<std::string> expected = codes_in_circuits();
  for (const auto& [code, text] : extreme_texts()) expected.insert(code);
  expected.insert("M-12");
  for (const std::string& code : all_codes()) {
    INFO(code);
    CHECK(expected.contains(code));
  }
}
