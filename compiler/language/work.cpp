#include "compiler/language/work.hpp"

namespace ferrule {

// Nothing of the work is read yet: every text compiles as a circuit without a cycle.
void read_work(Reading&, std::span<const Statement>, Circuit&) {}

}  // namespace ferrule
