// The library's own text is held to what every user's text is held to: it reads without a message.
#include <sstream>

#include <catch2/catch.hpp>

#include "compiler/library/library.hpp"
#include "support/outside.hpp"

using namespace ferrule;

namespace {

std::string shown(const Sources& sources, const Messages& messages) {
  std::ostringstream out;
  for (const Message& message : messages) {
    const Span at = message.places[0].span;
    const Position place = position_of(sources[at.file], at.begin);
    out << sources[at.file].path << ':' << place.line << ':' << place.column << ' ' << message.code << ' ' << message.sentence
        << "\n    " << message.fix << '\n';
  }
  return out.str();
}

}  // namespace

TEST_CASE("every statement of the library reads without a message") {
  const std::vector<Surroundings::LibraryFile> files = tests::library_files();
  Sources sources;
  Messages messages;
  Library library(sources, messages, files);
  for (const std::string& name : library.definition_names()) CHECK(library.definition(name));
  for (const std::string& name : library.symbol_names()) CHECK(library.symbol(name));
  for (const std::string& name : library.part_names()) CHECK(library.part(name));
  CHECK(shown(sources, messages) == "");
}

TEST_CASE("what the library's text refers to is there") {
  const std::vector<Surroundings::LibraryFile> files = tests::library_files();
  Sources sources;
  Messages messages;
  Library library(sources, messages, files);
  const auto check_strokes = [&](const std::string& owner, const std::vector<Stroke>& strokes) {
    for (const Stroke& stroke : strokes) {
      INFO(owner << " uses " << stroke.name);
      if (stroke.kind == StrokeKind::use && stroke.name != "row") CHECK(library.part(stroke.name));
      if (stroke.kind == StrokeKind::symbol) CHECK(library.symbol(stroke.name));
    }
  };
  for (const std::string& name : library.part_names()) check_strokes(name, library.part(name)->strokes);
  for (const std::string& name : library.symbol_names()) {
    check_strokes(name, library.symbol(name)->strokes);
    if (const std::string& other = library.symbol(name)->variant_of; !other.empty()) CHECK(library.symbol(other));
  }
  for (const std::string& name : library.definition_names())
    for (const SymbolChoice& choice : library.definition(name)->symbols) {
      INFO(name << " is drawn by " << choice.symbol);
      CHECK((choice.symbol == "row" || choice.symbol == "trough" || library.symbol(choice.symbol)));
    }
}
