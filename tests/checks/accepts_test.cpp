// An accepted finding stays a finding; an accept that nobody needs, argues or may still use is one.
#include <catch2/catch.hpp>

#include <algorithm>

#include "checks/annotated.hpp"
#include "support/files.hpp"

using namespace ferrule;

namespace {

const std::string folder = std::string(FERRULE_SOURCE_DIR) + "/checks/";

std::string unloading_circuit() { return test::bare(tests::text_of(folder + "energy/closed-centre-no-unloading/bad.fer")); }
std::string unprotected_circuit() { return test::bare(tests::text_of(folder + "protection/pump-outlet-unprotected/bad-none.fer")); }

const Message* named(const Messages& messages, std::string_view rule) {
  const auto found = std::find_if(messages.begin(), messages.end(), [&](const Message& m) { return m.rule == rule; });
  return found == messages.end() ? nullptr : &*found;
}

Messages found(const std::string& circuit, const std::string& accept) { return test::found_in("tests/accepts.fer", circuit + accept + "\n").messages; }

}  // namespace

TEST_CASE("an accept with a reason marks its finding, by name or by code") {
  for (const std::string rule : {"closed-centre-no-unloading", "U-01"}) {
    const Messages messages = found(unloading_circuit(), "accept " + rule + " on 0P1 because \"a bench that idles on purpose\"");
    REQUIRE(named(messages, "closed-centre-no-unloading"));
    CHECK(named(messages, "closed-centre-no-unloading")->accepted == "a bench that idles on purpose");
    CHECK(messages.size() == 1);
  }
}

TEST_CASE("an error on the safety of people is accepted only with a name and a day") {
  const std::string accept = "accept pump-outlet-unprotected on 0P1 because \"the drive stalls\"";
  const Messages bare = found(unprotected_circuit(), accept);
  CHECK(named(bare, "waiver-without-reason"));
  CHECK(named(bare, "pump-outlet-unprotected")->accepted.empty());
  const Messages argued = found(unprotected_circuit(), accept + " { by \"hydraulics group\", date 2025-10-01 }");
  CHECK_FALSE(named(argued, "waiver-without-reason"));
  CHECK(named(argued, "pump-outlet-unprotected")->accepted == "the drive stalls");
}

TEST_CASE("an accept is stale, past its day, or of no rule") {
  CHECK(named(found(unloading_circuit(), "accept pump-outlet-unprotected on 0P1 because \"x\""), "waiver-stale"));
  const Messages late = found(unloading_circuit(), "accept closed-centre-no-unloading on 0P1 because \"x\" { until 2025-12-31 }");
  CHECK(named(late, "waiver-expired"));
  CHECK(named(late, "closed-centre-no-unloading")->accepted.empty());
  CHECK_FALSE(named(found(unloading_circuit(), "accept closed-centre-no-unloading on 0P1 because \"x\" { until 2026-01-01 }"), "waiver-expired"));
  CHECK(named(found(unloading_circuit(), "accept no-such-rule on 0P1 because \"x\""), "waiver-of-no-rule"));
}

TEST_CASE("what a graver finding says already is masked, not repeated") {
  const Messages messages = found(unprotected_circuit(), "");
  for (const Message& m : messages)
    if (m.rule == "closed-centre-no-unloading") CHECK(m.masked_by == "pump-outlet-unprotected on 0P1");
}
