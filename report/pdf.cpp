#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <system_error>

#include "report/paint.hpp"
#include "report/painter.hpp"

namespace rootstead::layout {
namespace {

namespace fs = std::filesystem;

struct DestroySurface {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
struct DestroyCairo {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};
using SurfacePtr = std::unique_ptr<cairo_surface_t, DestroySurface>;
using CairoPtr = std::unique_ptr<cairo_t, DestroyCairo>;

constexpr int kBookmarkLevels = 8;

Error unwritable(const fs::path& file, const std::string& why) {
  return {Code::file_unwritable, file.string(), "the file cannot be written (" + why + ")",
          "choose a folder that exists, has room and allows writing"};
}

fs::path beside(const fs::path& file) {
  fs::path part = file;
  part += ".part";
  return part;
}

// The finished file takes its name; a file that failed half way leaves nothing.
Outcome move_into_place(const fs::path& part, const fs::path& file, cairo_status_t status) {
  std::error_code error;
  if (status != CAIRO_STATUS_SUCCESS) {
    fs::remove(part, error);
    return unwritable(file, cairo_status_to_string(status));
  }
  fs::rename(part, file, error);
  if (!error) return Nothing{};
  const std::string why = error.message();
  fs::remove(part, error);
  return unwritable(file, why);
}

void set_metadata(cairo_surface_t* pdf, const Document& document) {
  cairo_pdf_surface_restrict_to_version(pdf, CAIRO_PDF_VERSION_1_5);
  const auto set = [&](cairo_pdf_metadata_t key, const std::string& text) {
    if (!text.empty()) cairo_pdf_surface_set_metadata(pdf, key, text.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, document.title);
  set(CAIRO_PDF_METADATA_AUTHOR, document.author);
  set(CAIRO_PDF_METADATA_SUBJECT, document.subject);
  set(CAIRO_PDF_METADATA_KEYWORDS, document.keywords);
  set(CAIRO_PDF_METADATA_CREATOR, "Rootstead");
  set(CAIRO_PDF_METADATA_CREATE_DATE, document.created);
}

class Outline {
 public:
  explicit Outline(cairo_surface_t* pdf) : pdf_(pdf) {}

  void add(const Bookmark& mark) {
    const auto level = std::size_t(std::clamp(mark.level, 1, kBookmarkLevels));
    const auto flags = level == 1 ? CAIRO_PDF_OUTLINE_FLAG_BOLD : cairo_pdf_outline_flags_t{};
    ids_[level] = cairo_pdf_surface_add_outline(pdf_, ids_[level - 1], mark.title.c_str(),
                                                ("dest='" + mark.target + "'").c_str(), flags);
  }

 private:
  cairo_surface_t* pdf_;
  std::array<int, kBookmarkLevels + 1> ids_{CAIRO_PDF_OUTLINE_ROOT};
};

// Where `steps` stops it, the pages so far are left to be thrown away.
Result<cairo_status_t> paint_all(cairo_surface_t* pdf, const Document& document,
                                 const Steps& steps) {
  const CairoPtr cairo(cairo_create(pdf));
  Painter painter(cairo.get(), pdf);
  Outline outline(pdf);
  for (const Page& page : document.pages) {
    ROOTSTEAD_CHECK(
        tell(steps, "pages", int(&page - document.pages.data()), int(document.pages.size())));
    cairo_pdf_surface_set_size(pdf, page.width * kPointsPerMillimetre,
                               page.height * kPointsPerMillimetre);
    // Setting the size forgets what the page already holds, so the root opens only now.
    if (&page == &document.pages.front()) cairo_tag_begin(cairo.get(), "Document", "");
    painter.paint(page);
    for (const Element& element : page.elements) {
      if (const auto* mark = std::get_if<Bookmark>(&element.what)) outline.add(*mark);
    }
    if (&page == &document.pages.back()) cairo_tag_end(cairo.get(), "Document");
    cairo_show_page(cairo.get());
  }
  return cairo_status(cairo.get());
}

SurfacePtr picture_surface(const Page& page, const fs::path& part, bool svg, double scale) {
  const double w = page.width * kPointsPerMillimetre, h = page.height * kPointsPerMillimetre;
  if (svg) return SurfacePtr(cairo_svg_surface_create(part.c_str(), w, h));
  return SurfacePtr(cairo_image_surface_create(CAIRO_FORMAT_RGB24, int(std::lround(w * scale)),
                                               int(std::lround(h * scale))));
}

}  // namespace

Outcome write_pdf(const Document& document, const fs::path& file, const Steps& steps) {
  if (document.pages.empty()) return unwritable(file, "the document has no pages");
  const fs::path part = beside(file);
  const Page& first = document.pages.front();
  SurfacePtr pdf(cairo_pdf_surface_create(part.c_str(), first.width * kPointsPerMillimetre,
                                          first.height * kPointsPerMillimetre));
  if (const auto status = cairo_surface_status(pdf.get()); status != CAIRO_STATUS_SUCCESS)
    return unwritable(file, cairo_status_to_string(status));
  set_metadata(pdf.get(), document);
  const Result<cairo_status_t> painted = paint_all(pdf.get(), document, steps);
  cairo_surface_finish(pdf.get());
  const cairo_status_t finished = cairo_surface_status(pdf.get());
  if (painted)
    return move_into_place(part, file, *painted == CAIRO_STATUS_SUCCESS ? finished : *painted);
  std::error_code ignored;
  fs::remove(part, ignored);
  return painted.error();
}

Outcome write_picture(const Page& page, const fs::path& file, double dots_per_inch) {
  const bool svg = file.extension() == ".svg";
  if (!svg && file.extension() != ".png") {
    return Error{Code::format_unknown, file.string(), "no picture can be made with this ending",
                 "end the name in .svg or .png"};
  }
  const fs::path part = beside(file);
  const double scale = svg ? 1 : dots_per_inch / 72;
  const SurfacePtr surface = picture_surface(page, part, svg, scale);
  auto status = cairo_surface_status(surface.get());
  if (status == CAIRO_STATUS_SUCCESS) {
    const CairoPtr cairo(cairo_create(surface.get()));
    cairo_set_source_rgb(cairo.get(), 1, 1, 1);
    cairo_paint(cairo.get());
    cairo_scale(cairo.get(), scale, scale);
    Painter(cairo.get(), nullptr).paint(page);
    status = cairo_status(cairo.get());
  }
  if (status == CAIRO_STATUS_SUCCESS && !svg)
    status = cairo_surface_write_to_png(surface.get(), part.c_str());
  cairo_surface_finish(surface.get());
  if (status == CAIRO_STATUS_SUCCESS && svg) status = cairo_surface_status(surface.get());
  return move_into_place(part, file, status);
}

}  // namespace rootstead::layout
