// What `size` does to the machines of the project: the pasted text reads, moves, keeps what is required, and has nothing left to paste.
#include <set>

#include "checks/machinery/rule.hpp"
#include "compiler/figures/requirement.hpp"
#include "sizing/sized_circuit.hpp"

using namespace ferrule;
using tests::about;

namespace {

// "P-01 0P1" of every finding of this severity.
std::set<std::string> found(const Circuit& circuit, Severity severity) {
  std::set<std::string> out;
  for (const Message& m : check(circuit, "2026-01-01").messages)
    if (m.severity == severity) out.insert(m.code + " " + m.subject);
  return out;
}

std::vector<std::string> fresh(const std::set<std::string>& before, const std::set<std::string>& after) {
  std::vector<std::string> out;
  std::set_difference(after.begin(), after.end(), before.begin(), before.end(), std::back_inserter(out));
  return out;
}

// Its time must not be too short, but the flow is that of a lever: the bore that its load needs fills faster. `size` says so.
constexpr std::string_view too_fast = "boom-up";

std::set<std::string> unmet(const working::Book& book) {
  std::set<std::string> out;
  for (const working::Judged& judged : working::judged_requirements(book))
    if (judged.outcome != working::Judged::Outcome::met) out.insert(judged.address);
  return out;
}

}  // namespace

TEST_CASE("the lines to paste make every machine of the project work") {
  std::size_t changed = 0;
  for (const auto& path : tests::all_circuits()) {
    if (path.string().find("/pairs/") != std::string::npos) continue;
    const std::string text = tests::contents_of(path);
    const tests::Open before(text);
    const sizing::Sized sized = tests::sized(text);
    INFO(path << "\n" << sized.text);
    const tests::Open after(sized.text);
    for (const Message& m : after.compilation->messages) CHECK(m.severity != Severity::error);
    for (const std::size_t state : after.book->told()) CHECK(after.book->point(state).settled);
    for (const Severity severity : {Severity::error, Severity::warning})
      for (const std::string& one : fresh(found(before.compilation->circuit, severity), found(after.compilation->circuit, severity)))
        if (one.find(too_fast) == std::string::npos) CHECK(one == "");
    for (const std::string& one : found(after.compilation->circuit, Severity::warning)) CHECK(one.rfind("L-01", 0) != 0);
    CHECK(tests::sized(sized.text).lines.empty());
    CHECK(sized.text.size() > text.size() / 2);
    changed += sized.lines.size();
  }
  CHECK(changed > 50);
}

TEST_CASE("what is required and was met is met with the lines pasted") {
  for (const auto& path : tests::all_circuits()) {
    if (path.string().find("/pairs/") != std::string::npos) continue;
    const std::string text = tests::contents_of(path);
    const tests::Open before(text), after(tests::sized(text).text);
    INFO(path);
    for (const std::string& address : fresh(unmet(*before.book), unmet(*after.book))) CHECK(address.rfind(too_fast, 0) == 0);
  }
}

TEST_CASE("the lines to paste are the lines that differ") {
  for (const auto& path : tests::all_circuits()) {
    const std::string text = tests::contents_of(path);
    const sizing::Sized sized = tests::sized(text);
    // Pasted by number into the text, the last first, they give the text with everything pasted.
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    for (auto line = sized.lines.rbegin(); line != sized.lines.rend(); ++line) {
      if (line->is_new) lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(line->number), line->text);
      else lines[line->number - 1] = line->text;
    }
    std::string pasted;
    for (const std::string& line : lines) pasted += line + "\n";
    INFO(path);
    CHECK(pasted == sized.text);
  }
}

TEST_CASE("where nothing can be proposed it is said why") {
  const std::string supply =
      "reservoir 0Z1 { volume 60 L, breather }\nelectric-motor 0M1 { power 5 kW, speed 1500 rpm }\n"
      "fixed-pump 0P1 { displacement 10 cm3/rev, driven-by 0M1 }\nsuction 0Z1 -- 0P1.S\n";
  const std::string relief = "relief-valve 0V1 { cracking 100 bar, full-flow 110 bar at 15 L/min }\npressure 0P1.P -- 0V1.P\nreturn 0V1.T -- 0Z1\n";
  const std::string cylinder = "cylinder 1A1 { bore 50 mm, rod 28 mm, stroke 300 mm }\npressure 0P1.P -- 1A1.A\nreturn 1A1.B -- 0Z1\n";
  CHECK(about(tests::sized(supply + relief + cylinder), "1A1 bore and rod").why_none == "no state gives it a load to move and the pressure for it");
  CHECK(about(tests::sized(supply + relief + cylinder), "cooler duty").why_none.find("there is no cycle") != std::string::npos);
  const std::string work = "cycle { step out { 1A1 extends 200 mm against 9000 kN } }\n";
  CHECK(about(tests::sized(supply + relief + cylinder + work), "1A1 bore and rod").why_none == "no bore of the series brings the load up at this pressure");
  const std::string another = "reservoir 0Z2 { volume 60 L, breather }\nreturn 0V1.T -- 0Z2\n";
  CHECK(about(tests::sized(supply + relief + another), "0Z1 volume").why_none.find("several reservoirs") == 0);
}
