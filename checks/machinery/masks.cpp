#include "checks/machinery/masks.hpp"

namespace ferrule {
namespace {

// Order of the catalogue: consistency > connection > protection > function > quantity > style.
struct Mask {
  std::string_view graver, restated;
};
constexpr Mask masks[] = {
    // Without a relief the idle flow has nowhere to go at all; the power wasted over a relief is then no question.
    {"pump-outlet-unprotected", "closed-centre-no-unloading"},
    {"sequence-no-free-return", "actuator-cannot-exhaust"},
};

}  // namespace

std::string mask_of(const Message& message, const Messages& all) {
  for (const Mask& mask : masks) {
    if (mask.restated != message.rule) continue;
    for (const Message& other : all)
      if (other.rule == mask.graver && other.subject == message.subject && other.severity == Severity::error) return other.rule + " on " + other.subject;
  }
  return {};
}

}  // namespace ferrule
