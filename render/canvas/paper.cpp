// PDF and PNG through cairo.
#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <map>
#include <numbers>

#include "render/canvas/dashes.hpp"
#include "render/canvas/lettering.hpp"
#include "render/canvas/surfaces.hpp"
#include "render/canvas/words.hpp"

namespace ferrule::canvas {
namespace {

constexpr double points_per_mm = 72 / 25.4;
constexpr double most_pixels = 16'384;  // along a side; more is a slip or an attack

cairo_status_t append_bytes(void* out, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

// Unhinted glyphs of the packaged face, the same outline at every size.
cairo_scaled_font_t* scaled_face(cairo_font_face_t* cairo_face, double em_mm) {
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_matrix_t size, identity;
  cairo_matrix_init_scale(&size, em_mm, em_mm);
  cairo_matrix_init_identity(&identity);
  cairo_scaled_font_t* scaled = cairo_scaled_font_create(cairo_face, &size, &identity, options);
  cairo_font_options_destroy(options);
  return scaled;
}

std::vector<cairo_glyph_t> placed_glyphs(const Lettering& lettering, double capital) {
  std::vector<cairo_glyph_t> glyphs;
  for (const Glyph& glyph : lettering.glyphs) glyphs.push_back({glyph.index, glyph.x * capital, glyph.y * capital});
  return glyphs;
}

// Which bytes each glyph stands for, so that the text of a PDF can be searched and copied. Text is left to right here.
std::vector<cairo_text_cluster_t> clusters_of(const Lettering& lettering) {
  std::vector<cairo_text_cluster_t> clusters;
  for (std::size_t i = 0; i < lettering.glyphs.size();) {
    std::size_t next = i + 1;
    while (next < lettering.glyphs.size() && lettering.glyphs[next].byte == lettering.glyphs[i].byte) ++next;
    const int end = next < lettering.glyphs.size() ? lettering.glyphs[next].byte : static_cast<int>(lettering.words.size());
    const int begin = i == 0 ? 0 : lettering.glyphs[i].byte;
    if (end < begin) return {};
    clusters.push_back({end - begin, static_cast<int>(next - i)});
    i = next;
  }
  return clusters;
}

class Paper : public Canvas {
 public:
  ~Paper() override {
    for (const auto& [capital, font] : fonts_) cairo_scaled_font_destroy(font);
    if (face_ != nullptr) cairo_font_face_destroy(face_);
    if (cairo_ != nullptr) cairo_destroy(cairo_);
    if (surface_ != nullptr) cairo_surface_destroy(surface_);
  }

  void polyline(const std::vector<Point>& points, double width_mm, Pattern pattern, bool closed) override {
    const bool whole = pattern == Pattern::solid || pattern == Pattern::thin;
    for (const auto& piece : inked(points, width_mm, pattern, closed)) trace(piece, whole && closed);
    stroke(drawn_width(width_mm, pattern));
  }
  void polygon(const std::vector<Point>& points) override {
    trace(points, true);
    cairo_fill(cairo_);
  }
  void arc(Point centre, double radius, double from_degrees, double to_degrees, double width_mm) override {
    const double radians = std::numbers::pi / 180;
    cairo_new_path(cairo_);
    if (to_degrees < from_degrees)
      cairo_arc_negative(cairo_, centre.x, centre.y, radius, from_degrees * radians, to_degrees * radians);
    else
      cairo_arc(cairo_, centre.x, centre.y, radius, from_degrees * radians, to_degrees * radians);
    stroke(width_mm);
  }
  void disc(Point centre, double radius) override {
    cairo_new_path(cairo_);
    cairo_arc(cairo_, centre.x, centre.y, radius, 0, 2 * std::numbers::pi);
    cairo_fill(cairo_);
  }
  void text(Point at, std::string_view words, const TextStyle& style) override {
    const Lettering& shaped = lettering(words);
    if (shaped.glyphs.empty()) return;
    const double width = shaped.width * style.capital_mm;
    const double shift = style.anchor == Anchor::left ? 0 : style.anchor == Anchor::middle ? width / 2 : width;
    cairo_save(cairo_);
    cairo_translate(cairo_, at.x, at.y);
    if (style.turned) cairo_rotate(cairo_, -std::numbers::pi / 2);
    cairo_translate(cairo_, -shift, 0);
    show(shaped, style.capital_mm);
    cairo_restore(cairo_);
  }
  void set_colour(Colour colour) override { cairo_set_source_rgb(cairo_, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0); }
  void begin_group(const std::string&, const std::string&, const std::string&) override {}
  void end_group() override {}
  void place(const std::string&, Point) override {}
  void link(Point, double, double, const std::string&) override {}
  void bookmark(std::string_view, const std::string&, int) override {}

 protected:
  cairo_surface_t* surface_ = nullptr;
  cairo_t* cairo_ = nullptr;

 private:
  void trace(const std::vector<Point>& points, bool closed) {
    const std::size_t count = closed && points.size() > 2 && same(points.front(), points.back()) ? points.size() - 1 : points.size();
    for (std::size_t i = 0; i < count; ++i)
      i == 0 ? cairo_move_to(cairo_, points[i].x, points[i].y) : cairo_line_to(cairo_, points[i].x, points[i].y);
    if (closed) cairo_close_path(cairo_);
  }
  static bool same(Point a, Point b) { return a.x == b.x && a.y == b.y; }
  void stroke(double width_mm) {
    cairo_set_line_width(cairo_, width_mm);
    cairo_stroke(cairo_);
  }
  void show(const Lettering& shaped, double capital) {
    cairo_set_scaled_font(cairo_, font_for(capital));
    const auto glyphs = placed_glyphs(shaped, capital);
    const auto clusters = clusters_of(shaped);
    if (clusters.empty())
      cairo_show_glyphs(cairo_, glyphs.data(), static_cast<int>(glyphs.size()));
    else
      cairo_show_text_glyphs(cairo_, shaped.words.data(), static_cast<int>(shaped.words.size()), glyphs.data(),
                             static_cast<int>(glyphs.size()), clusters.data(), static_cast<int>(clusters.size()),
                             static_cast<cairo_text_cluster_flags_t>(0));
  }
  // One face for the whole file: a PDF holds the letters of every face it is given.
  cairo_scaled_font_t* font_for(double capital) {
    if (face_ == nullptr) face_ = cairo_ft_font_face_create_for_ft_face(face(), FT_LOAD_NO_HINTING);
    cairo_scaled_font_t*& font = fonts_[capital];
    if (font == nullptr) font = scaled_face(face_, capital * units_per_em() / units_per_capital());
    return font;
  }

  cairo_font_face_t* face_ = nullptr;
  std::map<double, cairo_scaled_font_t*> fonts_;  // by height of capitals, mm
};

class Pdf final : public Paper {
 public:
  explicit Pdf(const DocumentData& data) {
    surface_ = cairo_pdf_surface_create_for_stream(append_bytes, &bytes_, 1, 1);
    cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_TITLE, clean(data.title).c_str());
    cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_SUBJECT, clean(data.subject).c_str());
    if (!data.author.empty()) cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_AUTHOR, clean(data.author).c_str());
    if (!data.keywords.empty()) cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_KEYWORDS, clean(data.keywords).c_str());
    cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_CREATOR, "Ferrule");
    cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_CREATE_DATE, iso_date(data.source_date_epoch).c_str());
    cairo_ = cairo_create(surface_);
    cairo_scale(cairo_, points_per_mm, points_per_mm);
  }
  void new_sheet(double width_mm, double height_mm, const std::string& name) override {
    if (begun_) cairo_show_page(cairo_);
    begun_ = true;
    cairo_pdf_surface_set_size(surface_, width_mm * points_per_mm, height_mm * points_per_mm);
    cairo_pdf_surface_set_page_label(surface_, clean(name).c_str());
    set_colour(black);
  }
  // Names are cleaned to letters that need no escape in an attribute.
  void place(const std::string& name, Point at) override {
    mark(CAIRO_TAG_DEST, fmt::format("name='{}' x={:.3f} y={:.3f}", xml_id(name), at.x * points_per_mm, at.y * points_per_mm));
  }
  void link(Point corner, double width, double height, const std::string& place) override {
    mark(CAIRO_TAG_LINK, fmt::format("rect=[{:.3f} {:.3f} {:.3f} {:.3f}] dest='{}'", corner.x * points_per_mm, corner.y * points_per_mm,
                                     width * points_per_mm, height * points_per_mm, xml_id(place)));
  }
  void bookmark(std::string_view words, const std::string& place, int level) override {
    above_.resize(std::min(static_cast<std::size_t>(level) + 1, above_.size()));
    const auto flags = static_cast<cairo_pdf_outline_flags_t>(level == 0 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : 0);
    above_.push_back(cairo_pdf_surface_add_outline(surface_, above_.back(), clean(words).c_str(), ("dest='" + xml_id(place) + "'").c_str(), flags));
  }
  std::string finish() override {
    if (begun_) cairo_show_page(cairo_);
    cairo_surface_finish(surface_);
    if (cairo_surface_status(surface_) != CAIRO_STATUS_SUCCESS) return {};
    mend_date(bytes_);
    return std::move(bytes_);
  }

 private:
  // cairo 1.16 takes numbers of attributes for points of the page, whatever the scale; without a scale every version does.
  void mark(const char* tag, const std::string& attributes) {
    cairo_save(cairo_);
    cairo_identity_matrix(cairo_);
    cairo_tag_begin(cairo_, tag, attributes.c_str());
    cairo_tag_end(cairo_, tag);
    cairo_restore(cairo_);
  }
  // cairo takes the clock unless told otherwise; what it can't read as a date leaves the entry out.
  static std::string iso_date(long epoch) {
    if (epoch == 0) return "none";
    const std::time_t seconds = epoch;
    std::tm utc{};
    gmtime_r(&seconds, &utc);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", utc.tm_year + 1900, utc.tm_mon + 1, utc.tm_mday, utc.tm_hour,
                       utc.tm_min, utc.tm_sec);
  }
  // cairo 1.16 forgets the prefix `D:` of a PDF date. Same length, so that no offset of the file moves: the seconds give way.
  static void mend_date(std::string& bytes) {
    constexpr std::string_view key = "/CreationDate (";
    const std::size_t at = bytes.rfind(key);
    if (at == std::string::npos || bytes.compare(at + key.size(), 2, "D:") == 0) return;
    const std::size_t digits = at + key.size();
    bytes.replace(digits, 16, "D:" + bytes.substr(digits, 12) + ") ");
  }
  std::vector<int> above_{CAIRO_PDF_OUTLINE_ROOT};  // the last bookmark of every level
  std::string bytes_;
  bool begun_ = false;
};

// Sheets stand one below the other in one grey picture, drawn at once when they are known by their sizes: a picture has
// to be made in its final size, so a second sheet copies the first into a larger one.
class Png final : public Paper {
 public:
  explicit Png(const DocumentData& data) : dots_per_mm_(std::clamp(data.dots_per_inch, 10.0, 2400.0) / 25.4), coloured_(data.coloured) {}

  void new_sheet(double width_mm, double height_mm, const std::string&) override {
    if (surface_ == nullptr) dots_per_mm_ = std::min(dots_per_mm_, most_pixels / std::max(width_mm, height_mm));
    const int width = std::max(width_, pixels(width_mm)), top = height_;
    const int height = std::min(top + pixels(height_mm), static_cast<int>(most_pixels));
    grow(width, height);
    cairo_scale(cairo_, dots_per_mm_, dots_per_mm_);
    cairo_translate(cairo_, 0, top / dots_per_mm_);
    if (!coloured_) cairo_set_operator(cairo_, CAIRO_OPERATOR_DEST_OUT);
    set_colour(black);
  }
  // On grey paper ink takes away, and white ink puts back.
  void set_colour(Colour colour) override {
    if (!coloured_) cairo_set_operator(cairo_, colour == white ? CAIRO_OPERATOR_OVER : CAIRO_OPERATOR_DEST_OUT);
    Paper::set_colour(coloured_ ? colour : black);
  }
  std::string finish() override {
    std::string bytes;
    if (surface_ == nullptr) return bytes;
    cairo_surface_flush(surface_);
    return cairo_surface_write_to_png_stream(surface_, append_bytes, &bytes) == CAIRO_STATUS_SUCCESS ? bytes : std::string();
  }

 private:
  int pixels(double mm) const { return static_cast<int>(std::lround(mm * dots_per_mm_)); }

  // Grey paper has one byte a pixel: full is white, and ink takes it away.
  void grow(int width, int height) {
    cairo_surface_t* larger = cairo_image_surface_create(coloured_ ? CAIRO_FORMAT_RGB24 : CAIRO_FORMAT_A8, width, height);
    cairo_t* on = cairo_create(larger);
    cairo_set_source_rgb(on, 1, 1, 1);
    cairo_paint(on);
    if (surface_ != nullptr) {
      cairo_set_operator(on, CAIRO_OPERATOR_SOURCE);
      cairo_set_source_surface(on, surface_, 0, 0);
      cairo_rectangle(on, 0, 0, width_, height_);
      cairo_fill(on);
      cairo_destroy(cairo_);
      cairo_surface_destroy(surface_);
    }
    surface_ = larger;
    cairo_ = on;
    width_ = width;
    height_ = height;
  }

  double dots_per_mm_;
  bool coloured_;
  int width_ = 0, height_ = 0;
};

}  // namespace

std::unique_ptr<Canvas> new_pdf(const DocumentData& data) { return std::make_unique<Pdf>(data); }
std::unique_ptr<Canvas> new_png(const DocumentData& data) { return std::make_unique<Png>(data); }

}  // namespace ferrule::canvas
