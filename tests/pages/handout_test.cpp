// Handouts as poppler reads them: what is meant stands there, in type that is embedded, on paper of the right size.
#include <catch2/catch.hpp>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <regex>

#include "checks/report/cautions.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/verb.hpp"
#include "render/handout/lesson.hpp"
#include "support/files.hpp"

using namespace ferrule;
namespace fs = std::filesystem;

namespace {

std::string after(const std::string& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  char buffer[4096];
  while (const std::size_t count = fread(buffer, 1, sizeof buffer, pipe)) out.append(buffer, count);
  pclose(pipe);
  return out;
}

struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "ferrule-XXXXXX").string();
    path = mkdtemp(name.data());
  }
  ~Folder() { fs::remove_all(path); }
};

Talk outside(long epoch = 0) { return {[] { return std::string(); }, "2026-01-01", 100, epoch, false, {}, {}, {}}; }

std::string source(const std::string& file) { return (fs::path(FERRULE_SOURCE_DIR) / file).string(); }

// A handout made in this process, and the same as a file made by the command.
struct Made {
  std::vector<pages::Page> pages;
  std::string file;
};

Made made(const Folder& folder, const std::string& file, const std::string& paper, const std::string& language) {
  Talk talk = outside();
  const Compiled one = compiled(source(file), talk);
  REQUIRE(one.compilation);
  const Circuit& circuit = one.compilation->circuit;
  const Computed known = computed(circuit);
  const Phrases say(language);
  const pages::Paper on = *pages::paper_named(paper);
  const std::string date = circuit.sheet.texts.count("date") ? circuit.sheet.texts.at("date") : "";
  const handout::Lesson lesson{*one.compilation, *known.book, say, on, fs::path(file).stem().string(), cautions_for(circuit), date};
  std::vector<std::string> notes;
  Made out{pages::pages_of(handout::handout(lesson, notes), on), (folder.path / "handout.pdf").string()};
  INFO(talk.err);
  REQUIRE(run({"handout", source(file), "--output", out.file, "--paper", paper, "--language", language}, talk) == exit_code::done);
  return out;
}

std::string without_blanks(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (static_cast<unsigned char>(c) > ' ') out += c;
  return out;
}

const std::vector<std::string> lessons{"samples/lessons/01-platform.fer", "samples/lessons/02-clamp-and-punch.fer", "samples/lessons/03-mixer.fer"};

}  // namespace

TEST_CASE("the file holds the words that are meant, page by page, and no others") {
  const Folder folder;
  for (const std::string& file : lessons)
    for (const std::string language : {"en", "de"}) {
      const Made one = made(folder, file, "a4", language);
      for (std::size_t i = 0; i < one.pages.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        const std::string text = without_blanks(after("pdftotext -raw -f " + number + " -l " + number + " " + one.file + " -"));
        std::size_t letters = 0;
        for (const sheet::Ink& ink : one.pages[i].inks) {
          if (ink.kind != sheet::Ink::Kind::words || ink.words.empty()) continue;
          const std::string words = without_blanks(ink.words);
          letters += words.size();
          INFO(file << " page " << number << ": " << ink.words);
          CHECK(text.find(words) != std::string::npos);
        }
        INFO(file << " page " << number);
        CHECK(text.size() == letters);
      }
    }
}

TEST_CASE("pages are exactly A4 or US Letter, or twice that where a drawing needs it, and every face is embedded once") {
  // ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: size A is 8.5 x 11 in; 72 points an inch.
  const Folder folder;
  const std::vector<std::pair<std::string, std::string>> papers{{"a4", "595.276 x 841.89"}, {"letter", "612 x 792"}};
  for (const std::string& file : lessons)
    for (const auto& [paper, size] : papers) {
      const Made one = made(folder, file, paper, "en");
      const std::string info = after("pdfinfo -f 1 -l 99 " + one.file);
      INFO(file << "\n" << info);
      CHECK(info.find("Pages:           " + std::to_string(one.pages.size())) != std::string::npos);
      const std::regex any(R"(Page +\d+ size: +([0-9.]+ x [0-9.]+))");
      for (auto it = std::sregex_iterator(info.begin(), info.end(), any); it != std::sregex_iterator(); ++it) CHECK((*it)[1] == size);
      const std::string fonts = after("pdffonts " + one.file);
      CHECK(std::count(fonts.begin(), fonts.end(), '\n') <= 2 + 3);   // a face comes in parts of 256 letters
      CHECK(fonts.find(" no ") == std::string::npos);
    }
}

TEST_CASE("no words touch others, none are smaller than 2.5 mm, nothing stands in the margin of a printer") {
  const Folder folder;
  for (const std::string& file : lessons)
    for (const std::string paper : {"a4", "letter"}) {
      const Made one = made(folder, file, paper, "de");
      for (std::size_t i = 0; i < one.pages.size(); ++i) {
        std::vector<std::pair<sheet::Rect, std::string>> words;
        for (const sheet::Ink& ink : one.pages[i].inks)
          if (ink.kind == sheet::Ink::Kind::words && !ink.words.empty()) {
            words.emplace_back(sheet::extent_of({ink}), ink.words);
            CHECK(ink.style.capital_mm >= 2.5 - 1e-9);
          }
        const sheet::Rect all = sheet::extent_of(one.pages[i].inks);
        INFO(file << " page " << i + 1);
        CHECK(all.x >= 19);
        CHECK(all.y >= 5);
        CHECK(all.right() <= one.pages[i].width - 5);
        CHECK(all.bottom() <= one.pages[i].height - 5);
        for (std::size_t a = 0; a < words.size(); ++a)
          for (std::size_t b = a + 1; b < words.size(); ++b) {
            INFO(words[a].second << " and " << words[b].second);
            CHECK_FALSE(sheet::closer(words[a].first, words[b].first, 0));
          }
      }
    }
}

TEST_CASE("the same text gives the same bytes, and the only date is the text's or the one handed in") {
  const Folder folder;
  const auto bytes = [&](long epoch, const std::string& file) {
    Talk talk = outside(epoch);
    const std::string path = (folder.path / "x.pdf").string();
    REQUIRE(run({"handout", file, "--output", path}, talk) == exit_code::done);
    return tests::text_of(path);
  };
  CHECK((bytes(0, source(lessons[0])) == bytes(0, source(lessons[0]))));
  bytes(1'700'000'000, source("checks/protection/pump-outlet-unprotected/good.fer"));
  CHECK(after("pdftotext " + (folder.path / "x.pdf").string() + " -").find("2023-11-14") != std::string::npos);  // date -u -d @1700000000
}

TEST_CASE("every position of every valve has a page, also without a cycle") {
  const Folder folder;
  Talk talk = outside();
  const std::string path = (folder.path / "x.pdf").string();
  REQUIRE(run({"handout", source("checks/protection/pump-outlet-unprotected/good.fer"), "--output", path}, talk) == exit_code::done);
  const std::string said = after("pdftotext -layout " + path + " -");
  CHECK(said.find("stands in 0") != std::string::npos);
  CHECK(said.find("stands in a") != std::string::npos);
}

TEST_CASE("a call that cannot be met says what to write, and nothing is written") {
  const Folder folder;
  const std::string path = (folder.path / "x.pdf").string();
  const std::vector<std::pair<std::vector<std::string>, std::string>> calls{
      {{"handout", source(lessons[0])}, "handout needs --output"},
      {{"handout", source(lessons[0]), "--output", "x.png"}, "does not end with .pdf"},
      {{"handout", source(lessons[0]), "--output", path, "--paper", "a5"}, "--paper is a4 or letter, not a5"},
      {{"handout", source(lessons[0]), "--output", path, "--language", "xx"}, "--language is one of de, en, not xx"}};
  for (const auto& [words, said] : calls) {
    Talk talk = outside();
    CHECK(run(words, talk) == exit_code::called_wrongly);
    INFO(talk.err);
    CHECK(talk.err.find(said) != std::string::npos);
    CHECK_FALSE(fs::exists(path));
  }
}

TEST_CASE("every phrase stands in every language, with the same gaps") {
  const auto gaps = [](const std::string& text) {
    std::vector<char> found;
    for (std::size_t at = 0; at + 2 < text.size(); ++at)
      if (text[at] == '{' && text[at + 2] == '}') found.push_back(text[at + 1]);
    std::sort(found.begin(), found.end());
    return found;
  };
  REQUIRE(phrase_table().size() > 50);
  for (const auto& [key, texts] : phrase_table()) {
    INFO(key);
    REQUIRE(texts.size() == phrase_languages().size());
    for (const auto& [language, text] : texts) CHECK(gaps(text) == gaps(texts.at("en")));
  }
}

TEST_CASE("phrases: gaps are filled, what a language lacks is English, an unknown key is itself") {
  CHECK(Phrases("en")("foot.page", {"2", "9"}) == "page 2 of 9");
  CHECK(Phrases("de")("foot.page", {"2", "9"}) == "Seite 2 von 9");
  CHECK(Phrases("xx")("foot.page", {"2", "9"}) == "page 2 of 9");
  CHECK(Phrases("de")("no.such") == "no.such");
  CHECK(Phrases("de").word("result", "speed") == "Geschwindigkeit");
  CHECK(Phrases("de").word("result", "wobble") == "wobble");
  const PhraseTable table = phrase_table("# remark\na.b\n  en: one: two\r\n\n  de:  eins \n");
  CHECK(table.at("a.b").at("en") == "one: two");
  CHECK(table.at("a.b").at("de") == "eins");
}
