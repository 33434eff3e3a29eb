// grammar/LANGUAGE.md: what definitions generate is on it, and every example is compiled, none skipped.
// FERRULE_TESTS=write renews the generated parts and the messages that are drawn under wrong examples.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <set>

#include "checks/annotated.hpp"
#include "compiler/compile.hpp"
#include "compiler/reference/reference.hpp"
#include "support/outside.hpp"

namespace {

using namespace ferrule;
using tests::lines_of;

constexpr const char* page_path = "grammar/LANGUAGE.md";
std::string page() { return tests::project_text(page_path); }

// ```fer            a whole text, compiled without a message
// ```fer in a circuit   lines that belong into the page's first example; only what they leave unjoined may be reported
// ```fer wrong      such lines with slips, their messages drawn under them
struct Example {
  std::string kind, text;
  std::size_t begin, end;  // of the text in the page
};

std::vector<Example> examples_of(const std::string& text) {
  std::vector<Example> found;
  for (std::size_t at = 0; (at = text.find("```fer", at)) != std::string::npos;) {
    const std::size_t line_end = text.find('\n', at), end = text.find("```", line_end);
    found.push_back({text.substr(at + 3, line_end - at - 3), text.substr(line_end + 1, end - line_end - 1), line_end + 1, end});
    at = end + 3;
  }
  return found;
}

// What a statement declares: a tag, or its word where a text has one of them; "" when it declares nothing.
std::string name_of(const Tree& tree, const Item& item) {
  static const std::set<std::string_view> single{"circuit", "sheet", "fluid", "cycle"};
  static const std::set<std::string_view> others{"suction", "pressure", "working", "return", "drain", "pilot", "every", "require",
                                                 "accept",  "ask",      "place",   "never",  "plugged", "open", "let"};
  const auto terms = tree.terms_of(item);
  if (terms.size() < 2 || others.contains(terms[0].text)) return {};
  return std::string(single.contains(terms[0].text) ? terms[0].text : terms[1].text);
}

bool is_about_steps(const Tree& tree, const Item& item) {
  static const std::set<std::string_view> words{"require", "accept", "ask"};
  return item.count > 0 && words.contains(tree.terms_of(item)[0].text);
}

std::set<std::string> names_in(const std::string& text) {
  Sources sources;
  const Parsed parsed = parse(sources, sources.add("fragment.fer", text));
  std::set<std::string> names;
  for (const Item& item : parsed.tree.items_of(parsed.tree.blocks[0])) names.insert(name_of(parsed.tree, item));
  return names;
}

// The first example without the statements whose place the fragment takes.
std::string surroundings_of(const std::string& fragment, const std::string& machine) {
  const std::set<std::string> taken = names_in(fragment);
  Sources sources;
  const Parsed parsed = parse(sources, sources.add("machine.fer", machine));
  std::string text;
  for (const Item& item : parsed.tree.items_of(parsed.tree.blocks[0])) {
    const std::string name = name_of(parsed.tree, item);
    const bool replaced = !name.empty() && taken.contains(name);
    if (!replaced && !(taken.contains("cycle") && is_about_steps(parsed.tree, item))) text += machine.substr(item.span.begin, item.span.end - item.span.begin) + "\n";
  }
  return text;
}

// A fragment leaves ports open and parts unreached; everything else is its own.
Messages beside_open_ends(const Messages& messages) {
  Messages kept;
  for (const Message& message : messages)
    if (message.rule != "port-open" && message.rule != "floating-part") kept.push_back(message);
  return kept;
}

std::string annotated(const std::string& text, bool whole) {
  static const tests::Outside outside;
  const auto compilation = compile(outside, "example.fer", text);
  return test::drawn_under(compilation->sources, whole ? compilation->messages : beside_open_ends(compilation->messages), 0, text);
}

// The example as it should be drawn: with messages where it is wrong, bare where it is right.
std::string as_compiled(const Example& example, const std::string& machine) {
  const std::string own = test::bare(example.text);
  if (example.kind == "fer") return annotated(own, true);
  const std::string around = surroundings_of(own, machine);
  const std::string all = annotated(around + own, false);
  return all.starts_with(around) ? all.substr(around.size()) : "(the machine itself draws messages)\n" + all;
}

std::string renewed(const std::string& text) {
  Sources sources;
  Messages messages;
  const auto files = tests::library_files();
  Library library(sources, messages, files);
  std::string made = page_renewed(text, library, sources);
  const std::string machine = examples_of(made).front().text;
  const std::vector<Example> examples = examples_of(made);
  for (auto example = examples.rbegin(); example != examples.rend(); ++example)
    if (example->kind == "fer wrong") made.replace(example->begin, example->end - example->begin, as_compiled(*example, machine));
  return made;
}

}  // namespace

TEST_CASE("the page holds what the definitions generate") {
  const std::string made = renewed(page());
  if (test::is_writing()) {
    std::ofstream(tests::in_project(page_path), std::ios::binary) << made;
    return;
  }
  const std::vector<std::string> now = lines_of(page()), then = lines_of(made);
  for (std::size_t i = 0; i < std::max(now.size(), then.size()); ++i) {
    INFO("line " << i + 1 << "; FERRULE_TESTS=write build/test_checks renews the page");
    REQUIRE((i < now.size() ? now[i] : "(nothing)") == (i < then.size() ? then[i] : "(nothing)"));
  }
}

TEST_CASE("every example of the page compiles as its fence says") {
  const std::string text = page();
  const std::vector<Example> examples = examples_of(text);
  REQUIRE(examples.size() >= 45);
  const std::string machine = examples.front().text;
  REQUIRE(examples.front().kind == "fer");
  for (const Example& example : examples) {
    DYNAMIC_SECTION("line " << std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(example.begin), '\n')) {
      CHECK((example.kind == "fer" || example.kind == "fer in a circuit" || example.kind == "fer wrong"));
      CHECK(as_compiled(example, machine) == example.text);
      if (example.kind == "fer wrong") CHECK(test::bare(example.text) != example.text);
      else CHECK(test::bare(example.text) == example.text);
    }
  }
}

TEST_CASE("every kind of the library, with every fact of its own, is on the page") {
  const std::string text = page();
  Sources sources;
  Messages messages;
  const auto files = tests::library_files();
  Library library(sources, messages, files);
  for (const std::string& name : library.definition_names()) {
    INFO(name);
    CHECK(text.find("**`" + name + "`**") != std::string::npos);
    for (const FactSpec& fact : library.definition(name)->facts) {
      INFO(fact.name);
      CHECK(text.find("| `" + fact.name + "` |") != std::string::npos);
    }
  }
}
