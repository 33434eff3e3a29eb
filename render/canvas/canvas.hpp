// Paper to draw on. The only folder that knows cairo and Pango is render/canvas.
//
// Words may come from anybody: they are cleaned of control, direction and invisible characters (shown as an empty square)
// and escaped. A character that the face lacks is drawn as an empty square too.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace ferrule::canvas {

struct Point {
  double x = 0, y = 0;  // mm, x right, y down
};

enum class Pattern { solid, pilot, drain, chain, thin, pilot_in_symbol, drain_in_symbol, chain_in_symbol, dotted, long_dash };

struct Colour {
  unsigned char red = 0, green = 0, blue = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};
inline constexpr Colour black{}, white{255, 255, 255};

enum class Anchor { left, middle, right };

struct TextStyle {
  double capital_mm = 2.5;  // height of a capital letter
  Anchor anchor = Anchor::left;
  bool turned = false;      // reads from the right
};

struct TextSize {
  double width = 0, height = 0;  // mm; height of the capitals for one line
};

// One sheet or several in one file. Every coordinate is in mm on the paper.
class Canvas {
 public:
  virtual ~Canvas() = default;
  virtual void new_sheet(double width_mm, double height_mm, const std::string& name) = 0;
  // Patterns are cut piece by piece so that every straight piece begins and ends with a full dash.
  virtual void polyline(const std::vector<Point>& points, double width_mm, Pattern pattern = Pattern::solid, bool closed = false) = 0;
  virtual void polygon(const std::vector<Point>& points) = 0;  // filled
  // Clockwise from angle to angle; anticlockwise when `to` is less.
  virtual void arc(Point centre, double radius, double from_degrees, double to_degrees, double width_mm) = 0;
  virtual void disc(Point centre, double radius) = 0;
  // `at` is the left, middle or right end of the baseline.
  virtual void text(Point at, std::string_view words, const TextStyle& style) = 0;
  // Of all that is drawn from here on; a sheet begins in black. A picture shows colours only if the document says `coloured`.
  virtual void set_colour(Colour colour) = 0;
  virtual void begin_group(const std::string& id, const std::string& css_class, const std::string& title) = 0;  // SVG only
  virtual void end_group() = 0;
  // PDF only. A place of the sheet that can be gone to; a box from which a press goes to a place, on this sheet or another of the
  // file, which has to exist when it is finished; a line of the table of contents, in the order of the file, level 0 outermost.
  virtual void place(const std::string& name, Point at) = 0;
  virtual void link(Point corner, double width, double height, const std::string& place) = 0;
  virtual void bookmark(std::string_view words, const std::string& place, int level) = 0;
  // The finished bytes; empty when the paper could not be made. Call once.
  virtual std::string finish() = 0;
};

enum class Format { pdf, svg, png };
struct DocumentData {
  std::string title, subject;
  std::string author = {}, keywords = {};  // pdf
  long source_date_epoch = 0;   // s; the only date a file carries, 0 for none
  double dots_per_inch = 200;   // png
  bool coloured = false;        // png: three bytes a pixel in place of one
};
// Null when the lettering face is missing or broken: no sheet is drawn with a face that is not ISO 3098's form.
std::unique_ptr<Canvas> new_canvas(Format format, const DocumentData& data);
// For people: what is wrong with the lettering face and what to do; empty when a canvas can be had.
std::string why_no_canvas();

// Measured in the packaged ISO 3098 face. Deterministic for one font file.
TextSize measured(std::string_view words, double capital_mm);

// The characters of `words` that the face lacks and that have no plain spelling, each once; drawn as empty squares.
std::string lacking(std::string_view words);

// Where the face was found; empty when it is missing (callers then say so).
std::string font_file();

}  // namespace ferrule::canvas
