// All definitions, symbols and stroke parts that a text can use: the library's and the text's own, equal in everything.
//
// Library text is only indexed at the start (a scan for lines that begin with `define`, `symbol` or `part`); a definition
// is parsed when something first asks for it, so that start-up does not grow with the library.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/compile.hpp"
#include "compiler/language/cursor.hpp"
#include "compiler/model/definition.hpp"

namespace ferrule {

class Library {
 public:
  // `sources` receives the library text that is read and `messages` what is wrong with it; both must outlive the library.
  Library(Sources& sources, Messages& messages, const std::vector<Surroundings::LibraryFile>& files);
  ~Library();

  // Puts a `define`, `symbol` or `part` statement of the text beside those of the library. The tree must outlive this.
  // A name that the text gives twice, or that the library has, is reported.
  void add(const Statement& statement);

  // Null when there is none. What is given stays where it is for the life of the library.
  const Definition* definition(std::string_view name);
  const Symbol* symbol(std::string_view name);
  const StrokePart* part(std::string_view name);
  // The stroke part that `by WORD` means: the one with this operator word.
  const StrokePart* operator_part(std::string_view word);

  std::vector<std::string> definition_names() const;  // sorted
  std::vector<std::string> symbol_names() const;
  std::vector<std::string> part_names() const;
  std::vector<std::string> operator_words() const;    // sorted

 private:
  struct Text;  // where a definition stands, and what was read from it
  struct Shelf;
  void scan(std::string_view file, std::string_view text);
  void note_operator(std::string_view text, const std::string& part);
  Statement statement_of(Text& text);
  template <class Thing, class Read>
  const Thing* look_up(Shelf& shelf, std::unique_ptr<Thing> Text::* read_thing, std::string_view name, Read read);

  Sources& sources_;
  Messages& messages_;
  std::unique_ptr<Shelf> definitions_, symbols_, parts_;
  std::vector<std::unique_ptr<Tree>> trees_;
  std::map<std::string, std::string, std::less<>> operators_;  // operator word to the first part that has it
};

}  // namespace ferrule
