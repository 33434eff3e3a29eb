// generate circuit|graph COMPONENTS SEED: prints one generated circuit, or its graph for a general graph program.
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "support/generator.hpp"

int main(int argc, char** argv) {
  if (argc != 4) return 2;
  const int components = std::atoi(argv[2]);
  const auto seed = static_cast<std::uint32_t>(std::atoi(argv[3]));
  const std::string text = std::string_view(argv[1]) == "graph" ? ferrule::tests::generated_graph(components, seed)
                                                               : ferrule::tests::generated_circuit(components, seed);
  std::fwrite(text.data(), 1, text.size(), stdout);
}
