#include <catch2/catch.hpp>

#include "checks/report/excerpt.hpp"
#include "checks/report/letters.hpp"
#include "checks/report/report.hpp"
#include "checks/report/sha256.hpp"

using namespace ferrule;

namespace {

const std::string press = "reservoir 0Z1\nrelief-valve 0V1 { setting 260 bar, rated-flow 60 L/min }\nworking 1V1.A -- {hose DN 12, rated 215 bar} -- 1A1.A\n";

Span span_of(const std::string& text, const std::string& words) {
  const auto begin = static_cast<std::uint32_t>(text.find(words));
  return {0, begin, begin + static_cast<std::uint32_t>(words.size())};
}

Message zone_above_rating() {
  Message m;
  m.code = "P-02", m.rule = "relief-set-above-rating", m.severity = Severity::error;
  m.sentence = "0V1 lets the pressure side reach 262 bar, but the hose to 1A1.A is made for 215 bar";
  m.places = {{span_of(press, "260 bar"), "set here"}, {span_of(press, "rated 215 bar"), "weakest part"}};
  m.fix = "set 0V1 to 210 bar or less";
  m.subject = "0V1", m.state_class = "work", m.states = {"press"}, m.trail = {"0P1.P", "1V1.P"};
  m.values = {{"reached", "262 bar", "215 bar", "derived"}};
  return m;
}

std::vector<Checked> one(const Sources& sources, Message m) {
  return {Checked{&sources, "press.fer", "Press", {std::move(m)}, {}, {}}};
}

}  // namespace

TEST_CASE("a finding reads like a drawing with a parts list") {
  Sources sources;
  sources.add("press.fer", press);
  CHECK(as_text(one(sources, zone_above_rating()), {}) ==
        "error  0V1 lets the pressure side reach 262 bar, but the hose to 1A1.A is made for 215 bar\n"
        "  at     press.fer:2:28      relief-set-above-rating (P-02)\n"
        "  2      relief-valve 0V1 { setting 260 bar, rated-flow 60 L/min }\n"
        "                                    A~~~~~~\n"
        "  3      working 1V1.A -- {hose DN 12, rated 215 bar} -- 1A1.A\n"
        "                                       B~~~~~~~~~~~~\n"
        "  A      set here\n"
        "  B      weakest part\n"
        "  when   press (work)\n"
        "  path   0P1.P > 1V1.P\n"
        "  value  reached 262 bar, limit 215 bar (derived)\n"
        "  fix    set 0V1 to 210 bar or less\n"
        "\n"
        "press.fer: 1 error, 0 warnings, 0 advice\n");
}

TEST_CASE("a finding on one line, for editors") {
  Sources sources;
  sources.add("press.fer", press);
  CHECK(as_lines(one(sources, zone_above_rating()), 100) ==
        "press.fer:2:28: error: P-02 relief-set-above-rating 0V1: 0V1 lets the pressure side reach 262 bar, but the hose to 1A1.A is made for 215 bar\n");
}

TEST_CASE("long lines are cut round the place, within the width") {
  Sources sources;
  const std::string text = "part 0Z1 { \"" + std::string(300, 'x') + "\", volume 63 L, \"" + std::string(300, 'y') + "\" }\n";
  sources.add("long.fer", text);
  const auto lines = marked_lines(sources[0], 0, {{span_of(text, "63 L"), ""}}, 60);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].text.size() <= 60);
  CHECK(lines[0].text.starts_with(".."));
  REQUIRE(lines[0].marks.size() == 1);
  CHECK(lines[0].text.substr(lines[0].marks[0].find('A'), 4) == "63 L");
}

TEST_CASE("underlines follow the width of wide and combining letters") {
  Sources sources;
  const std::string text = "a \"\xE6\xB2\xB9\xE5\x8E\x8B e\xCC\x81\" 63 L\n";
  sources.add("wide.fer", text);
  const auto lines = marked_lines(sources[0], 0, {{span_of(text, "63 L"), ""}}, 60);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].marks[0] == std::string(11, ' ') + "A~~~");
}

TEST_CASE("escapes, direction changers and broken bytes are shown, never sent") {
  CHECK(safe("a\x1b[31mb") == "a<U+001B>[31mb");
  CHECK(safe("a\xE2\x80\xAE" "b") == "a<U+202E>b");
  CHECK(safe("\xEF\xBB\xBF\xE2\x80\x8B\x7F") == "<U+FEFF><U+200B><U+007F>");
  CHECK(safe("\xC3(") == "<0xC3>(");
  CHECK(safe("a\tb \xC3\xB8") == "a b \xC3\xB8");
}

TEST_CASE("no line of ours is a command to a job runner") {
  CHECK(without_log_commands("  ::add-mask::x\na ##[error]b\n::c") == "  : :add-mask::x\na # #[error]b\n: :c");
}

TEST_CASE("a name from a stranger reaches no report unescaped") {
  Sources sources;
  sources.add("press\x1b.fer", press);
  Message m = zone_above_rating();
  m.sentence = m.subject = m.fix = m.states[0] = "\x1b]0;x\x07 ##[error]";
  for (const bool colour : {false, true}) {
    const std::string out = as_text(one(sources, m), {100, colour, 100, false}) + as_lines(one(sources, m), 100);
    CHECK(out.find("\x07") == std::string::npos);
    CHECK(out.find("\x1b]") == std::string::npos);
    CHECK(out.find("##[") == std::string::npos);
  }
}

TEST_CASE("the digest of FIPS 180-4, by its examples B.1 and B.2") {
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") == "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST_CASE("the identity of a finding survives moving, renaming and other numbers") {
  const Message m = zone_above_rating();
  Message moved = m;
  moved.places[0].span.begin += 40, moved.sentence = "said otherwise", moved.values[0].value = "300 bar";
  CHECK(identity_of(m, "Press", 0) == identity_of(moved, "Press", 0));
  for (std::string Message::* field : {&Message::code, &Message::subject, &Message::cause, &Message::state_class}) {
    Message other = m;
    other.*field += "x";
    CHECK(identity_of(m, "Press", 0) != identity_of(other, "Press", 0));
  }
  CHECK(identity_of(m, "Press", 0) != identity_of(m, "Press", 1));
}

TEST_CASE("accepted and masked findings are counted apart, and the totals are exact beyond --max") {
  Sources sources;
  sources.add("press.fer", press);
  std::vector<Checked> all = one(sources, zone_above_rating());
  for (int i = 0; i < 4; ++i) all[0].messages.push_back(zone_above_rating());
  all[0].messages[0].accepted = "argued", all[0].messages[1].masked_by = "x on y";
  TextLook look;
  look.most = 1;
  const std::string text = as_text(all, look);
  CHECK(text.find("and 2 more errors (--max 0 shows all)") != std::string::npos);
  CHECK(text.ends_with("press.fer: 3 errors, 0 warnings, 0 advice; accepted 1\n"));
}
