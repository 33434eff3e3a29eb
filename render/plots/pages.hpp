// All diagrams of a circuit as a file: A4 sheets in a PDF, one tall sheet as SVG or PNG.
#pragma once

#include "render/drawn_file.hpp"
#include "render/plots/diagrams.hpp"

namespace ferrule::plots {

struct Plots {
  std::string title;                 // of the circuit
  std::string file;
  working::Course course;
  std::vector<working::PumpChart> pumps;
  working::HeatBars heat;
};
Plots plots_of(const working::Book& book, const std::string& file);

// `ending` is ".pdf", ".svg" or ".png".
DrawnFile plots_file(const Plots& plots, std::string_view ending, long source_date_epoch = 0);

}  // namespace ferrule::plots
