// The fixed phrases of what is printed for a class, in every language that stdlib/phrases.txt gives: none stands in code.
#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ferrule {

// By key, then by language ("en", "de"), in the order of the keys. The file: a key stands at the left, below it, indented,
// one line `LANGUAGE: TEXT` each; a line that begins with `#` is a remark. {0}, {1} stand for what is filled in.
using PhraseTable = std::map<std::string, std::map<std::string, std::string, std::less<>>, std::less<>>;
PhraseTable phrase_table(std::string_view text);

// The table of stdlib/phrases.txt, which is part of the program.
const PhraseTable& phrase_table();
// The languages that it gives: "de", "en".
std::vector<std::string> phrase_languages();

class Phrases {
 public:
  // A language that the file does not give is English.
  explicit Phrases(std::string_view language) : language_(language) {}
  const std::string& language() const { return language_; }

  // The phrase with {0}, {1} ... filled in. What the language lacks comes in English, an unknown key as itself.
  std::string operator()(std::string_view key, std::initializer_list<std::string_view> values = {}) const;
  // For words that come from elsewhere ("shaft power"): the phrase of `group.word`, or the word where there is none.
  std::string word(std::string_view group, std::string_view word) const;

 private:
  std::string language_;
};

}  // namespace ferrule
