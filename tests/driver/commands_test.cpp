// The command line, with an outside made by hand.
#include <catch2/catch.hpp>

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>

#include "compiler/driver/difference.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/verb.hpp"
#include "support/files.hpp"

using namespace ferrule;
using tests::project_text, tests::text_of;
namespace fs = std::filesystem;

namespace {

// A folder of its own that goes when the test ends.
struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "ferrule-XXXXXX").string();
    path = mkdtemp(name.data());
  }
  ~Folder() { fs::remove_all(path); }
  std::string put(const std::string& name, const std::string& text) const {
    std::ofstream(path / name, std::ios::binary) << text;
    return (path / name).string();
  }
};

struct Said {
  int code;
  std::string out, err;
};
Said say(const std::vector<std::string>& words, const std::string& input = {}) {
  Talk talk{[&] { return input; }, "2026-01-01", 100, 0, false, {}, {}, {}};
  const int code = run(words, talk);
  return {code, talk.out, talk.err};
}

std::string good() { return project_text("checks/protection/pump-outlet-unprotected/good.fer"); }
std::string bad() { return project_text("checks/protection/pump-outlet-unprotected/bad.fer"); }

bool has(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }
std::ptrdiff_t lines(const std::string& text) { return std::count(text.begin(), text.end(), '\n'); }

}  // namespace

TEST_CASE("called without words the program shows how, a line a command and three examples, and fails") {
  const Said said = say({});
  CHECK(said.code == exit_code::called_wrongly);
  CHECK(said.out.empty());
  CHECK(has(said.err, "ferrule check press.fer"));
  CHECK(lines(said.err) <= static_cast<std::ptrdiff_t>(commands().size() + 6));
}

TEST_CASE("unknown commands and options are answered with the nearest") {
  CHECK(say({"chekc", "x"}).code == exit_code::called_wrongly);
  CHECK(has(say({"chekc", "x"}).err, "did you mean check?"));
  CHECK(has(say({"check", "x.fer", "--repotr", "json"}).err, "did you mean --report?"));
  CHECK(say({"check", "x.fer", "--repotr", "json"}).code == exit_code::called_wrongly);
  CHECK(has(say({"check", "x.fer", "--report", "jsom"}).err, "did you mean json?"));
  CHECK(say({"check", "x.fer", "--max", "many"}).code == exit_code::called_wrongly);
  CHECK(say({"explain", "pump-outlet-unprotecte"}).code == exit_code::called_wrongly);
  CHECK(has(say({"explain", "pump-outlet-unprotecte"}).err, "did you mean pump-outlet-unprotected?"));
}

TEST_CASE("every command explains itself, examples first, within 80 columns") {
  for (const Verb* verb : commands()) {
    const Said said = say({std::string(verb->name), "--help"});
    INFO(verb->name);
    CHECK(said.code == exit_code::done);
    CHECK(has(said.out, "Examples:"));
    CHECK(said.out.find("Examples:") < said.out.find("Options:"));
    for (const Option& option : verb->options) CHECK(has(said.out, option.name));
    for (std::size_t at = 0; at < said.out.size();) {
      const std::size_t end = said.out.find('\n', at);
      CHECK(end - at <= 100);
      at = end + 1;
    }
  }
}

TEST_CASE("the manual page names every command and option that the parser reads") {
  const std::string page = manual_page();
  for (const Verb* verb : commands()) {
    CHECK(has(page, "ferrule " + std::string(verb->name)));
    for (const Option& option : verb->options) {
      std::string name;
      for (const char c : option.name) name += c == '-' ? std::string("\\-") : std::string(1, c);
      CHECK(has(page, name));
    }
  }
}

TEST_CASE("exit codes tell findings, faults of the call, of reading and of writing apart") {
  const Folder folder;
  const std::string fine = folder.put("fine.fer", good()), faulty = folder.put("faulty.fer", bad());
  CHECK(say({"check", fine}).code == exit_code::done);
  CHECK(say({"check", faulty}).code == exit_code::found);
  CHECK(say({"check", faulty, "--fail-on", "never"}).code == exit_code::done);
  CHECK(say({"check", (folder.path / "none.fer").string()}).code == exit_code::unreadable);
  CHECK(say({"check", faulty, (folder.path / "none.fer").string()}).code == exit_code::unreadable);
  CHECK(say({"check", fine, "--report", "json=" + (folder.path / "no" / "report.json").string()}).code == exit_code::not_written);
  CHECK(say({"check", faulty, "--fail-on", "sometimes"}).code == exit_code::called_wrongly);
}

TEST_CASE("a folder means its circuits, in sorted order") {
  const Folder folder;
  folder.put("b.fer", good()), folder.put("a.fer", bad()), folder.put("notes.txt", "x");
  const Said said = say({"check", folder.path.string(), "--report", "lines"});
  CHECK(said.code == exit_code::found);
  CHECK(has(said.out, "a.fer:"));
  CHECK(has(say({"check", folder.path.string()}).out, "a.fer and 1 more file:"));
  const Folder empty;
  CHECK(say({"check", empty.path.string()}).code == exit_code::unreadable);
}

TEST_CASE("what is no regular file or too large is one line, not a hang") {
  const Folder folder;
  const std::string pipe = (folder.path / "pipe.fer").string();
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  const Said said = say({"check", pipe});
  CHECK(said.code == exit_code::unreadable);
  CHECK(has(said.err, "not a regular file"));
  CHECK(lines(said.err) == 1);
  CHECK(has(say({"check", "/dev/zero"}).err, "not a regular file"));
  const std::string large = folder.put("large.fer", std::string((4u << 20) + 1, '#'));
  CHECK(say({"check", large}).code == exit_code::unreadable);
  CHECK(has(say({"check", large}).err, "larger than 4 MiB"));
}

TEST_CASE("includes stay below the project root, links included") {
  const Folder outside, folder;
  outside.put("secret.fer", "let secret = 1\n");
  fs::create_symlink(outside.path / "secret.fer", folder.path / "link.fer");
  for (const std::string& path : {"../" + outside.path.filename().string() + "/secret.fer", (outside.path / "secret.fer").string(), std::string("link.fer")}) {
    INFO(path);
    const std::string file = folder.put("main.fer", "include \"" + path + "\"\n" + good());
    const Said said = say({"check", file, "--report", "lines"});
    CHECK(has(said.out, " N-"));
    CHECK(said.code != exit_code::done);
  }
}

TEST_CASE("outputs are whole or untouched, keep their mode, and links stay links") {
  const Folder folder;
  std::string standard;
  const std::string file = folder.put("sheet.svg", "old");
  REQUIRE(chmod(file.c_str(), 0640) == 0);
  CHECK(written(file, "new", standard).empty());
  CHECK(text_of(file) == "new");
  struct stat status {};
  stat(file.c_str(), &status);
  CHECK((status.st_mode & 0777) == 0640);
  fs::create_symlink(file, folder.path / "link.svg");
  CHECK(written((folder.path / "link.svg").string(), "by link", standard).empty());
  CHECK(fs::is_symlink(folder.path / "link.svg"));
  CHECK(text_of(file) == "by link");
  CHECK(written(folder.path.string(), "x", standard) == "it is a folder");
  CHECK(written("/dev/null", "x", standard) == "it is not a regular file");
  CHECK(written("-", "to standard output", standard).empty());
  CHECK(standard == "to standard output");
  std::size_t count = 0;
  for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder.path)) ++count;
  CHECK(count == 2);
}

TEST_CASE("an output that says the same is left alone") {
  const Folder folder;
  std::string standard;
  const std::string file = folder.put("same.txt", "same");
  const auto before = fs::last_write_time(file) - std::chrono::hours(1);
  fs::last_write_time(file, before);
  CHECK(written(file, "same", standard).empty());
  CHECK(fs::last_write_time(file) == before);
}

TEST_CASE("fmt lays out standard input, and --check only tells") {
  const Folder folder;
  const std::string untidy = "reservoir   0Z1 {volume 63 L}\n\n\n\n";
  const Said tidy = say({"fmt", "-"}, untidy);
  CHECK(tidy.code == exit_code::done);
  CHECK(say({"fmt", "-"}, tidy.out).out == tidy.out);
  const std::string file = folder.put("a.fer", untidy);
  CHECK(say({"fmt", "--check", file}).code == exit_code::found);
  CHECK(has(say({"fmt", "--diff", file}).out, "+++ b/"));
  CHECK(text_of(file) == untidy);
  CHECK(say({"fmt", file}).code == exit_code::done);
  CHECK(text_of(file) == tidy.out);
  CHECK(say({"fmt", "--check", file}).code == exit_code::done);
}

TEST_CASE("fmt leaves alone what it cannot read to the end") {
  const Folder folder;
  struct Case { std::string text, why; };
  const auto [text, why] = GENERATE(values<Case>({
      {std::string("gauge 0Z1 { }\n\0 picture", 23), "it holds a zero byte"},
      {"gauge 0Z1 { }\n\xB0 degrees\n", "not UTF-8"},
      {"circuit \"x\" " + std::string(200, '{') + "\n", "more than 128 deep"},
  }));
  const std::string file = folder.put("a.fer", text);
  const Said said = say({"fmt", file});
  CHECK(said.code == exit_code::unreadable);
  CHECK(has(said.err, "was left alone"));
  CHECK(has(said.err, why));
  CHECK(text_of(file) == text);
}

TEST_CASE("a folder without a circuit is said to be one by every command") {
  const Folder folder;
  for (const std::string verb : {"check", "paths", "fmt", "solve"}) {
    const Said said = say({verb, folder.path.string()});
    INFO(verb);
    CHECK(said.code == exit_code::unreadable);
    CHECK(has(said.err, "holds no .fer file"));
  }
}

TEST_CASE("a word without end is quoted in part") {
  const Folder folder;
  const Said said = say({"check", folder.put("a.fer", "circuit \"x\" { \"y\" }\n" + std::string(1'000'000, 'x') + " 1V1\ngauge " + std::string(2000, 'Z') + "\n")});
  CHECK(said.code == exit_code::found);
  CHECK(lines(said.err + said.out) <= 30);
  CHECK(said.out.size() < 2000);
  CHECK(has(said.out, "too-long (T-21)"));
}

TEST_CASE("the symbols of the library are drawn with their names and ports") {
  const Folder folder;
  const std::string svg = (folder.path / "symbols.svg").string();
  CHECK(say({"list", "--symbols", svg}).code == exit_code::done);
  const std::string sheet = text_of(svg);
  for (const char* name : {"relief", "cylinder", "tandem-centre-valve", "load-sensing-section"}) CHECK(has(sheet, name));
  CHECK(say({"list", "--symbols", (folder.path / "symbols.doc").string()}).code == exit_code::not_written);
}

TEST_CASE("a unified difference names the lines that change") {
  CHECK(difference("a.fer", "1\n2\n3\n4\n5\n", "1\n2\nx\n4\n5\n") == "--- a/a.fer\n+++ b/a.fer\n@@ -1,5 +1,5 @@\n 1\n 2\n-3\n+x\n 4\n 5\n");
  CHECK(difference("a.fer", "same\n", "same\n").empty());
}

TEST_CASE("explain and list say what a text can use") {
  CHECK(has(say({"explain", "P-01"}).out, "# pump-outlet-unprotected (P-01)"));
  CHECK(say({"explain", "N-01"}).code == exit_code::done);
  CHECK(has(say({"list"}).out, "relief-valve"));
  CHECK(has(say({"list", "relief-valve"}).out, "pressure to be limited"));
  CHECK(has(say({"list", "rules"}).out, "line-undersized"));
  CHECK(has(say({"list", "units"}).out, "kgf/cm2"));
  CHECK(has(say({"list", "results"}).out, "hold-time"));
  CHECK(has(say({"list", "operators"}).out, "proportional-solenoid"));
  CHECK(has(say({"list", "elements"}).out, "pressure-path"));
  CHECK(say({"list", "library"}).out == say({"list"}).out);
  CHECK(say({"list", "relief-vlave"}).code == exit_code::called_wrongly);
  CHECK(has(say({"list", "unit"}).err, "did you mean units?"));
}

// Codes stand in the program's text as "P-01"; whoever adds one owes its page.
TEST_CASE("every code that a message can carry has a page") {
  const std::regex written("\"([A-Z]-[0-9]{2})\"");
  std::set<std::string> codes;
  for (const char* folder : {"grammar", "compiler", "checks", "render"})
    for (const std::string& path : tests::files_below(folder, ".cpp")) {
      const std::string text = project_text(path);
      for (std::sregex_iterator found(text.begin(), text.end(), written), none; found != none; ++found) codes.insert((*found)[1]);
    }
  REQUIRE(codes.size() > 80);
  for (const std::string& code : codes) {
    INFO(code);
    const Said said = say({"explain", code});
    CHECK(said.code == exit_code::done);
    CHECK(said.out.starts_with("# "));
    CHECK(has(said.out.substr(0, said.out.find('\n')), "(" + code + ")"));
  }
}

TEST_CASE("explain reads codes as people say them, and names the nearest of what it does not know") {
  CHECK(has(say({"explain", "T-05"}).out, "# block-not-closed (T-05)"));
  CHECK(say({"explain", "t5"}).out == say({"explain", "T-05"}).out);
  CHECK(say({"explain", "block-not-closed"}).out == say({"explain", "T-05"}).out);
  CHECK(has(say({"explain", "block-not-close"}).err, "did you mean block-not-closed?"));
  CHECK(has(say({"explain", "T-99"}).err, "did you mean T-"));
  CHECK(say({"explain", "T-99"}).code == exit_code::called_wrongly);
}

TEST_CASE("paths says a paragraph for every state") {
  const Folder folder;
  const Said said = say({"paths", folder.put("fine.fer", good())});
  CHECK(said.code == exit_code::done);
  CHECK(has(said.out, "rest"));
  CHECK(say({"paths", folder.put("fine.fer", good()), "--state", "rset"}).code == exit_code::called_wrongly);
}

TEST_CASE("draw --verify says that sheet and text agree, or which port differs and where") {
  const Folder folder;
  const std::string sample = tests::in_project("samples/bale-squeezer.fer").string(), geometry = (folder.path / "sheet.json").string();
  const Said agrees = say({"draw", sample, "--verify"});
  CHECK(agrees.code == exit_code::done);
  CHECK(has(agrees.out, "the sheet says what the text says"));
  REQUIRE(say({"draw", sample, "--verify", "--output", geometry}).code == exit_code::done);
  CHECK(say({"draw", sample, "--verify", "--geometry", geometry}).code == exit_code::done);

  std::string text = text_of(geometry);
  const std::size_t line = text.find("\"id\": \"1A1.A\"");
  const std::size_t paths = text.find("\"paths\": [", line), rest = text.find(", \"junctions\"", paths);
  REQUIRE(rest != std::string::npos);
  text.replace(paths, rest - paths, "\"paths\": []");
  const std::string spoilt = folder.put("spoilt.json", text);
  const Said differs = say({"draw", sample, "--verify", "--geometry", spoilt});
  CHECK(differs.code == exit_code::found);
  CHECK(has(differs.out, "sheet 1, field "));
  CHECK(has(differs.out, "1A1.A"));
  CHECK(has(differs.out, "the text joins them"));

  CHECK(say({"draw", sample, "--verify", "--geometry", folder.put("broken.json", "{")}).code == exit_code::unreadable);
  CHECK(say({"draw", sample, "--verify", "--geometry", (folder.path / "none.json").string()}).code == exit_code::unreadable);
  CHECK(say({"draw", sample, "--geometry", geometry}).code == exit_code::called_wrongly);
}

TEST_CASE("a set of sheets is one .pdf or .json, and a numbered file a sheet otherwise") {
  const Folder folder;
  const std::string sample = std::string(FERRULE_SOURCE_DIR) + "/samples/tile-line.fer";
  const auto path = [&](const char* name) { return (folder.path / name).string(); };
  const Said set = say({"draw", sample, "--format", "A3", "--output", path("tile.svg")});
  CHECK(set.code == exit_code::done);
  CHECK(has(set.err, "does not fit one sheet of A3: drawn on "));
  CHECK(fs::exists(path("tile-1.svg")));
  CHECK(fs::exists(path("tile-4.svg")));
  CHECK_FALSE(fs::exists(path("tile.svg")));
  CHECK(say({"draw", sample, "--format", "A4", "--output", path("small.svg")}).code == exit_code::done);
  CHECK(fs::exists(path("small-01.svg")));   // ten and more: numbers of one length sort
  for (const char* whole : {"tile.pdf", "tile.json"}) {
    CHECK(say({"draw", sample, "--output", path(whole)}).code == exit_code::done);
    CHECK(fs::exists(path(whole)));
  }
  CHECK(say({"draw", sample, "--format", "fit", "--output", path("one.svg")}).err.empty());
  CHECK(fs::exists(path("one.svg")));
  const Said state = say({"draw", sample, "--state", "press", "--output", path("press.svg")});
  CHECK(state.code == exit_code::done);
  CHECK(has(text_of(path("press-3.svg")), "State: press"));
}

TEST_CASE("formats that are none are answered with those there are") {
  const Said said = say({"draw", "x.fer", "--format", "A9", "--output", "x.pdf"});
  CHECK(said.code == exit_code::called_wrongly);
  CHECK(has(said.err, "--format takes A4, A3, A2, A1, A0, fit, not A9"));
  const Said wide = say({"draw", std::string(FERRULE_SOURCE_DIR) + "/samples/bale-squeezer.fer", "--format", "A2", "--legible-on-a4", "--output", (Folder().path / "x.pdf").string()});
  CHECK(has(wide.err, "printed on A4, A2 would have letters of 1.2 mm: drawn on A3 at most"));
}

TEST_CASE("draw --findings marks what check finds") {
  const Folder folder;
  const std::string file = folder.put("bad.fer", bad()), output = (folder.path / "bad.svg").string();
  REQUIRE(say({"draw", file, "--findings", "--output", output}).code == exit_code::done);
  CHECK(has(text_of(output), "P-01 error: 0P1 can be shut in"));
  REQUIRE(say({"draw", file, "--output", output}).code == exit_code::done);
  CHECK_FALSE(has(text_of(output), "P-01"));
}

TEST_CASE("draw writes a .dxf, a file a sheet, and says what it does not show") {
  const Folder folder;
  const std::string sample = tests::in_project("samples/tile-line.fer").string(), output = (folder.path / "tile.dxf").string();
  REQUIRE(say({"draw", sample, "--output", output}).code == exit_code::done);
  CHECK(has(text_of((folder.path / "tile-2.dxf").string()), "AC1009"));
  CHECK_FALSE(std::filesystem::exists(output));
  for (const std::vector<std::string>& more : {std::vector<std::string>{"--findings"}, {"--state", "press"}}) {
    std::vector<std::string> words{"draw", sample, "--output", output};
    words.insert(words.end(), more.begin(), more.end());
    const Said said = say(words);
    CHECK(said.code == exit_code::called_wrongly);
    CHECK(has(said.err, "a .dxf shows the circuit at rest"));
  }
}
