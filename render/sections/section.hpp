// A valve cut open in one position: shapes, lines and words in mm, from the left face of the housing and the axis of the bore.
//
// Later shapes lie over earlier ones. Nothing is painted here: patterns come with paper (paint_section).
#pragma once

#include <string>
#include <vector>

#include "compiler/paths/paths.hpp"
#include "render/canvas/canvas.hpp"
#include "render/sections/spool.hpp"

namespace ferrule::sections {

// How oil is shown: by pattern, so that a copier keeps the difference.
enum class Oil : std::uint8_t { pressed, returns, circulates, shut_in, air };
Oil oil_of(Condition condition);

enum class Look : std::uint8_t { housing, cap, oil, spool, drilling, part, coil_on, coil_off };

struct Shape {
  Look look = Look::housing;
  std::vector<canvas::Point> outline;
  Oil oil = Oil::air;               // of `oil` and `drilling`
};

struct Stroke {
  std::vector<canvas::Point> points;
  double width = 0.35;
  canvas::Pattern pattern = canvas::Pattern::solid;
  bool arrow = false;               // at its end
};

struct Word {
  canvas::Point at;                 // middle of the baseline
  std::string text;
};

struct Section {
  double left = 0, right = 0, top = 0, bottom = 0;
  std::vector<Shape> shapes;
  std::vector<Stroke> strokes;
  std::vector<Word> words;
};

// What a port of the valve sees in the state shown.
struct PortNow {
  std::string port;
  Oil oil = Oil::shut_in;
  int flow = 0;                     // +1 into the valve, -1 out of it
};
struct Now {
  std::vector<PortNow> ports;
  std::vector<std::string> energised;  // tags of solenoids
};

Section section_of(const Spool& spool, const Part& valve, std::size_t position, const Now& now);

// Paints with the left face of the housing and its axis at `origin`; lengths shrink by `scale`, lettering does not.
void paint_section(canvas::Canvas& paper, const Section& figure, canvas::Point origin, double scale);
// A small field of the pattern, for a legend.
void paint_sample(canvas::Canvas& paper, Oil oil, canvas::Point corner, double width, double height);
std::string_view words_of(Oil oil);

}  // namespace ferrule::sections
