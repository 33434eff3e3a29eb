// ferrule list: what a text can use.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "checks/report/letters.hpp"
#include "compiler/driver/disk.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/pages.hpp"
#include "compiler/driver/verb.hpp"
#include "compiler/reference/reference.hpp"
#include "render/draw.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule list", "kinds of components, one line each"},
    {"ferrule list relief-valve", "ports and facts of one kind"},
    {"ferrule list units", "units by quantity, with what is read as well"},
    {"ferrule list --symbols symbols.pdf", "every symbol with its name and ports, to be printed"},
    {"ferrule list rules", "codes and names of all that can be reported"},
};

constexpr Option options[] = {{"--symbols", "PATH", "draw all symbols; ends with .pdf, .svg or .png"}};

struct Shelves {
  Sources sources;
  Messages messages;
  Disk disk{"."};
  Library library{sources, messages, disk.library()};
};

std::string all_rules() {
  std::string out;
  for (const Explained& one : all_explained()) out += fmt::format("{:<6} {:<34} {}\n", one.code, one.name, one.level);
  return out;
}

struct Topic {
  std::string_view word;
  std::string (*listed)(Shelves&);
};
constexpr Topic topics[] = {
    {"library", [](Shelves& shelves) { return list_of_kinds(shelves.library, shelves.sources); }},
    {"rules", [](Shelves&) { return all_rules(); }},
    {"units", [](Shelves&) { return list_of_units(); }},
    {"results", [](Shelves&) { return list_of_results(); }},
    {"operators", [](Shelves& shelves) { return reference_of_operators(shelves.library); }},
    {"elements", [](Shelves&) { return reference_of_elements(); }},
};

std::string listed_as(std::string_view word, Shelves& shelves) {
  const auto topic = std::find_if(std::begin(topics), std::end(topics), [&](const Topic& t) { return t.word == word; });
  return topic == std::end(topics) ? reference_of_kind(shelves.library, word) : topic->listed(shelves);
}

std::vector<std::string> all_words(Shelves& shelves) {
  std::vector<std::string> words = shelves.library.definition_names();
  for (const Topic& topic : topics) words.emplace_back(topic.word);
  return words;
}

int draw_symbols(const std::string& output, Shelves& shelves, Talk& talk) {
  const DrawnFile drawn = symbols_file(shelves.library, std::filesystem::path(output).extension().string(), talk.source_date_epoch);
  return drawn.error.empty() ? put_file(output, drawn.bytes, talk) : say(talk, drawn.error, exit_code::not_written);
}

int run_list(const Call& call, Talk& talk) {
  Shelves shelves;
  if (call.has("--symbols")) return draw_symbols(call.value("--symbols"), shelves, talk);
  if (call.files.empty()) talk.out += listed_as("library", shelves);
  for (const std::string& word : call.files) {
    const std::string text = listed_as(word, shelves);
    if (text.empty()) return say(talk, fmt::format("the library has no kind {}{}", word, did_you_mean(word, all_words(shelves))), exit_code::called_wrongly);
    talk.out += text;
  }
  return exit_code::done;
}

}  // namespace

extern const Verb list_verb;
const Verb list_verb{"list", "[KIND]", "name kinds, facts of one, units, rules, results, operators, elements", examples, options, run_list};

}  // namespace ferrule
