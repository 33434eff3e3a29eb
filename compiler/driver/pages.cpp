#include "compiler/driver/pages.hpp"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "checks/machinery/accepts.hpp"
#include "checks/machinery/rule.hpp"
#include "checks/report/report.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/language/faults.hpp"
#include "grammar/faults.hpp"

namespace ferrule {
namespace {

// The fix of a message begins small, as it follows a key; a paragraph begins with a capital.
std::string as_sentence(std::string_view text) {
  std::string sentence(text);
  if (sentence.empty()) return sentence;
  if (sentence[0] >= 'a' && sentence[0] <= 'z') sentence[0] = static_cast<char>(sentence[0] - 'a' + 'A');
  return sentence.back() == '.' ? sentence : sentence + ".";
}

Explained page_from(std::string_view code, std::string_view name, Severity severity, std::string_view why, std::string_view write) {
  std::string page = fmt::format("# {} ({})\n\n## Why it matters\n\n{}\n", name, code, as_sentence(why));
  if (!write.empty()) page += fmt::format("\n## What to write\n\n{}\n", as_sentence(write));
  return {std::string(code), std::string(name), std::string(word_of(severity)), page};
}

// `t-5` and `T5` are T-05: as people say them aloud.
std::string as_code(std::string_view word) {
  if (word.size() < 2 || word.size() > 4 || !std::isalpha(static_cast<unsigned char>(word[0]))) return {};
  std::string digits(word.substr(word[1] == '-' ? 2 : 1));
  if (digits.empty() || digits.size() > 2 || !std::all_of(digits.begin(), digits.end(), [](unsigned char c) { return std::isdigit(c); })) return {};
  if (digits.size() == 1) digits.insert(0, "0");
  return std::string(1, static_cast<char>(std::toupper(static_cast<unsigned char>(word[0])))) + "-" + digits;
}

}  // namespace

std::vector<Explained> all_explained() {
  std::vector<Explained> all;
  for (const Rule* rule : rules())
    all.push_back({std::string(rule->code), std::string(rule->name), std::string(word_of(rule->severity)), std::string(page_of(rule->code))});
  for (const FaultPage& fault : fault_pages()) all.push_back(page_from(fault.code, fault.rule, fault.severity, fault.why, fault.write));
  for (const TextFault* fault : text_faults()) all.push_back(page_from(fault->code, fault->rule, fault->severity, fault->why, fault->write));
  for (const Keeping& fault : keeping_faults()) all.push_back(page_from(fault.code, fault.rule, fault.severity, fault.why, {}));
  std::stable_sort(all.begin(), all.end(), [](const Explained& a, const Explained& b) { return a.code < b.code; });
  return all;
}

const Explained* explained(const std::vector<Explained>& all, std::string_view word) {
  const std::string code = as_code(word);
  const auto found = std::find_if(all.begin(), all.end(), [&](const Explained& one) { return one.name == word || one.code == code; });
  return found == all.end() ? nullptr : &*found;
}

std::string nearest_explained(const std::vector<Explained>& all, std::string_view word) {
  const std::string code = as_code(word);
  std::vector<std::string> names;
  for (const Explained& one : all) names.push_back(code.empty() ? one.name : one.code);
  return did_you_mean(code.empty() ? word : code, names);
}

}  // namespace ferrule
