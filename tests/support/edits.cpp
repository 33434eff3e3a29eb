#include "support/edits.hpp"

namespace ferrule::tests {
namespace {

struct Swap { const char *name, *from, *to; };

constexpr Swap swaps[] = {{"a bore of three digits", "bore 63 mm, rod 36 mm", "bore 100 mm, rod 70 mm"},
                          {"another centre", "closed-centre-valve", "float-centre-valve"},
                          {"another pipe", "{tube 20 x 2 mm, length 2 m", "{tube 16 x 2 mm, length 2 m"},
                          {"a longer setting", "full-flow 160 bar at 40 L/min", "full-flow 162.5 bar at 37.5 L/min"}};

constexpr Swap more[] = {{"a gauge more", "1V1.A", "gauge 1Z9 { range 0 to 250 bar }\nworking 1V1.A -- 1Z9\n"},
                         {"a branch more", "1V1.A",
                          "closed-centre-valve 999V1 { a by solenoid 999Y1, b by solenoid 999Y2, drop 4 bar at 40 L/min, rated 315 bar, T rated 160 bar }\n"
                          "cylinder 999A1 \"one more\" { bore 63 mm, rod 36 mm, stroke 400 mm, friction 0.5 kN, rated 210 bar, horizontal }\n"
                          "pressure 0P1.P -- 999V1.P\nreturn 999V1.T -- 0Z1\nworking 999V1.A -- 999A1.A\nworking 999V1.B -- 999A1.B\n"}};

}  // namespace

std::vector<Edit> small_edits(const std::string& circuit) {
  std::vector<Edit> edits;
  for (const auto& [name, from, to] : swaps)
    if (const std::size_t at = circuit.find(from); at != std::string::npos)
      edits.push_back({name, circuit.substr(0, at) + to + circuit.substr(at + std::string(from).size())});
  const std::size_t cycle = circuit.find("\ncycle {");
  for (const auto& [name, where, what] : more)
    if (circuit.find(where) != std::string::npos && cycle != std::string::npos)
      edits.push_back({name, circuit.substr(0, cycle + 1) + what + circuit.substr(cycle + 1)});
  return edits;
}

}  // namespace ferrule::tests
