// solve and explain of results from the command line: exit codes, the published schema, reasons instead of numbers.
#include <catch2/catch.hpp>

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "compiler/driver/verb.hpp"
#include "support/generator.hpp"

using namespace ferrule;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

struct Answer {
  int code;
  std::string out, err;
};
Answer ask(const std::vector<std::string>& words) {
  Talk talk{[] { return std::string(); }, "2026-01-01", 100, 0, false, {}, {}, {}};
  const int code = run(words, talk);
  return {code, talk.out, talk.err};
}

std::string in_project(const std::string& path) { return std::string(FERRULE_SOURCE_DIR) + "/" + path; }
const std::string squeezer = in_project("samples/bale-squeezer.fer");

bool has(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

// By the validator of the Debian package python3-jsonschema.
int validated(const std::string& bytes) {
  std::string name = (fs::temp_directory_path() / "ferrule-results-XXXXXX").string();
  close(mkstemp(name.data()));
  std::ofstream(name, std::ios::binary) << bytes;
  const std::string program = "import json,sys,jsonschema as j; s=json.load(open(sys.argv[1])); j.Draft7Validator.check_schema(s); j.Draft7Validator(s).validate(json.load(open(sys.argv[2])))";
  const int code = std::system(("/usr/bin/python3 -W ignore -c '" + program + "' " + in_project("compiler/driver/results.schema.json") + " " + name).c_str());
  fs::remove(name);
  return code;
}

const std::string tiny = R"(reservoir 0Z1 { volume 63 L, breather }
electric-motor 0M1 { power 5.5 kW, speed 1450 rpm }
fixed-pump 0P1 { displacement 16 cm3/rev, driven-by 0M1, volumetric 93 %, mechanical 90 % }
relief-valve 0V1 { cracking 150 bar, full-flow 160 bar at 24 L/min }
pressure 0P1.P -- 0V1.P
suction 0Z1 -- 0P1.S
return 0V1.T -- 0Z1
)";

std::string in_file(const std::string& name, const std::string& text) {
  const fs::path path = fs::temp_directory_path() / ("ferrule-solve-" + std::to_string(getpid()) + "-" + name + ".fer");
  std::ofstream(path, std::ios::binary) << text;
  return path.string();
}

}  // namespace

TEST_CASE("results of every circuit keep the published schema") {
  for (const char* path : {"samples/bale-squeezer.fer", "samples/mould-clamp.fer", "samples/boat-winch.fer", "tests/briefs/picking-platform.fer",
                           "tests/briefs/bearing-press.fer", "samples/pairs/idle-over-relief.fer"}) {
    INFO(path);
    const Answer answer = ask({"solve", in_project(path), "--report", "json"});
    CHECK(validated(answer.out) == 0);
    CHECK(answer.out == ask({"solve", in_project(path), "--report", "json"}).out);
  }
}

TEST_CASE("JSON says what the board says") {
  const Json report = Json::parse(ask({"solve", squeezer, "--report", "json", "--state", "press"}).out);
  const Json& states = report["files"][0]["states"];
  REQUIRE(states.size() == 1);
  for (const Json& result : states[0]["results"])
    if (result["address"] == "1A1.force") CHECK(result["value"].get<double>() == Approx(49060).epsilon(1e-3));
  CHECK(report["files"][0]["requirements"].size() == 2);  // the third is of the cycle
}

TEST_CASE("a failed requirement fails the exit code of solve and check") {
  const std::string text = tiny + "require 0P1.flow at least 30 L/min\n";
  const std::string path = in_file("fails", text);
  const Answer solved = ask({"solve", path}), checked = ask({"check", path});
  CHECK(solved.code == exit_code::found);
  CHECK(has(solved.out, "failed   0P1.flow is 21.58 L/min during rest; at least 30 L/min is required"));
  CHECK(checked.code == exit_code::found);
  CHECK(has(checked.out, "requirement-not-met (F-17)"));
  fs::remove(path);
}

TEST_CASE("what is met ends well, what has no value says why") {
  const std::string met = in_file("met", tiny + "require 0P1.flow between 21 and 22 L/min\n"), none = in_file("none", tiny + "require cycle.time at most 3 s\n");
  CHECK(ask({"solve", met}).code == exit_code::done);
  const Answer answer = ask({"solve", none});
  CHECK(answer.code == exit_code::found);
  CHECK(has(answer.out, "no value cycle.time has no value: there is no cycle"));
  fs::remove(met), fs::remove(none);
}

TEST_CASE("a pump that nothing limits has no upper bound, and no number") {
  std::string text = tiny;
  text.replace(text.find("relief-valve"), text.find("\n", text.find("relief-valve")) - text.find("relief-valve"), "");
  text.replace(text.find("pressure 0P1.P -- 0V1.P"), 23, "cylinder 1A1 { bore 63 mm, rod 36 mm, stroke 400 mm }\nworking 0P1.P -- 1A1.A\nreturn 1A1.B -- 0Z1");
  text.erase(text.find("return 0V1.T"));
  const std::string path = in_file("unlimited", text);
  const Answer answer = ask({"solve", path});
  CHECK(has(answer.out, "none: no upper bound"));
  CHECK(has(answer.out, "0P1: nothing limits its pressure"));
  CHECK_FALSE(has(answer.out, "4000 bar"));
  fs::remove(path);
}

TEST_CASE("explain works a result out, and says what there is when it is asked for something else") {
  CHECK(has(ask({"explain", squeezer, "1A1.speed in squeeze"}).out, "= 21.58 L/min / 31.17 cm2"));
  CHECK(ask({"explain", squeezer, "1A1.speed", "during", "squeeze"}).out == ask({"explain", squeezer, "1A1.speed in squeeze"}).out);
  CHECK(has(ask({"explain", squeezer, "1A1.force"}).out, "1A1.force during press"));
  const Answer word = ask({"explain", squeezer, "1A1.colour"}), place = ask({"explain", squeezer, "1A2.speed"}), state = ask({"explain", squeezer, "1A1.speed in squeze"});
  CHECK(word.code == exit_code::called_wrongly);
  CHECK(has(word.err, "1A1 has no colour; it has speed, force"));
  CHECK(place.code == exit_code::called_wrongly);
  CHECK(has(state.err, "squeeze"));
  CHECK(has(ask({"explain", squeezer}).err, "explain needs a result"));
  CHECK(ask({"explain", "P-01"}).code == exit_code::done);
}

TEST_CASE("several files end with one table that sets them side by side, one file does not") {
  const std::string closed = in_project("samples/pairs/idle-over-relief.fer"), tandem = in_project("samples/pairs/idle-through-centre.fer");
  const Answer both = ask({"solve", closed, tandem, "--state", "waiting"});
  CHECK(both.code == exit_code::done);
  const std::size_t table = both.out.find("side by side: waiting");
  REQUIRE(table != std::string::npos);
  const std::string tail = both.out.substr(table);
  CHECK(has(tail, "idle-over-relief.fer"));
  CHECK(has(tail, "idle-through-centre.fer"));
  CHECK_FALSE(has(ask({"solve", closed, "--state", "waiting"}).out, "side by side"));
}

TEST_CASE("solve reads its options strictly") {
  CHECK(ask({"solve", squeezer, "--report", "xml"}).code == exit_code::called_wrongly);
  CHECK(has(ask({"solve", squeezer, "--state", "squeze"}).err, "squeeze"));
  CHECK(ask({"solve", "/nowhere.fer"}).code == exit_code::unreadable);
}

TEST_CASE("no report shows a number that is none") {
  const std::regex no_number(R"((^|[^a-zA-Z])-?(nan|inf)([^a-zA-Z]|$))");
  for (int seed = 1; seed <= 40; ++seed) {
    const std::string file = in_file("generated", tests::generated_circuit(5 + seed, static_cast<std::uint32_t>(seed)));
    INFO("seed " << seed);
    for (const std::vector<std::string>& words : {std::vector<std::string>{"solve", file}, {"solve", file, "--report", "json"}, {"check", file}, {"size", file}}) {
      const Answer answer = ask(words);
      std::smatch found;
      CHECK_FALSE(answer.out.empty());
      CHECK_FALSE(std::regex_search(answer.out, found, no_number));
      INFO(words.front() << ": " << found.prefix().str().substr(found.prefix().length() > 200 ? found.prefix().length() - 200 : 0));
      CHECK(answer.code <= exit_code::found);
    }
    fs::remove(file);
  }
}

TEST_CASE("more results than can be told at once are refused, and one state is told") {
  // A row of 1200 valves on one pump: two solenoids each.
  std::string text = tiny;
  for (int i = 0; i < 1200; ++i)
    text += fmt::format("closed-centre-valve 1V{0} {{ a by solenoid 1Y{0}1, b by solenoid 1Y{0}2, drop 3 bar at 20 L/min }}\ncylinder 1A{0} {{ bore 40 mm, rod 25 mm, stroke 200 mm }}\n"
                        "pressure 0P1.P -- 1V{0}.P\nreturn 1V{0}.T -- 0Z1\nworking 1V{0}.A -- 1A{0}.A\nworking 1V{0}.B -- 1A{0}.B\n", i + 1);
  const std::string file = in_file("row", text);
  for (const std::vector<std::string>& words : {std::vector<std::string>{"solve", file}, {"paths", file}, {"size", file}, {"mark", file, file}, {"handout", file, "--output", file + ".pdf"}}) {
    const Answer answer = ask(words);
    INFO(words.front() << " " << answer.err);
    CHECK(answer.code == exit_code::called_wrongly);
    CHECK(has(answer.err, "more results than are told at once"));
  }
  const Answer one = ask({"solve", file, "--state", "rest"});
  CHECK(one.code == exit_code::done);
  CHECK(has(one.out, "rest (rest)"));
  fs::remove(file);
}

TEST_CASE("a hundred thousand components are checked and followed") {
  std::string text = tiny;
  for (int i = 1; i <= 100'000; i += 10) {
    std::string run = "pressure 0P1.P";
    for (int k = i; k < i + 10; ++k) text += fmt::format("throttle 1V{}\n", k), run += fmt::format(" -- 1V{}", k);
    text += run + " -- 0Z1\n";
  }
  const std::string file = in_file("many", text);
  const Answer checked = ask({"check", file}), followed = ask({"paths", file, "--state", "rest"});
  CHECK(checked.code <= exit_code::found);
  CHECK(has(checked.out, "0 errors"));
  CHECK(followed.code == exit_code::done);
  CHECK(has(followed.out, "The oil of 0P1 returns to the reservoir"));
  fs::remove(file);
}

TEST_CASE("with one state its own requirements are judged") {
  const std::string file = in_file("required", tiny + "require 0P1.P.pressure at most 100 bar\n");
  const std::string state = "rest";
  const Answer answer = ask({"solve", file, "--state", state});
  CHECK(answer.code == exit_code::found);
  CHECK(has(answer.out, "failed"));
  CHECK(has(answer.out, "care: "));
  const Json json = Json::parse(ask({"solve", file, "--state", state, "--report", "json"}).out)["files"][0];
  CHECK(json["requirements"].size() == 1);
  CHECK_FALSE(json.contains("cycle"));
  CHECK(validated(ask({"solve", file, "--state", state, "--report", "json"}).out) == 0);
  fs::remove(file);
}
