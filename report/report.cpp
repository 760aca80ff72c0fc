#include "report/report.hpp"

#include <algorithm>
#include <functional>

#include "engine/base/text.hpp"
#include "report/book.hpp"
#include "report/paint.hpp"
#include "report/sheet.hpp"
#include "report/view.hpp"

namespace rootstead {
namespace {

constexpr double kPictureWidth = 300;  // mm
constexpr double kPictureDotsPerInch = 150;
constexpr std::string_view kPlanStep = "plan", kChapterStep = "chapters";

bool digits(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

// The date of the project as a PDF wants it. Cairo would take the clock where none is given, and
// no two files would be alike, so a date that is not of the form 2026-11-25 becomes a fixed one.
std::string creation_date(const std::string& date) {
  const std::string_view d = trimmed(date);
  const bool iso = d.size() == 10 && d[4] == '-' && d[7] == '-' && digits(d.substr(0, 4)) &&
                   digits(d.substr(5, 2)) && digits(d.substr(8, 2));
  return (iso ? std::string(d) : std::string("1970-01-01")) + "T00:00:00Z";
}

void add_plan(Book& book, Sheet sheet) {
  book.contents.push_back({"Plan at " + book.words.scale(sheet.scale), "plan", book.pages.size()});
  book.pages.push_back(std::move(sheet.page));
}

layout::Document document_of(const Plan& plan, std::vector<layout::Page> pages) {
  const ProjectSettings& s = plan.site->settings;
  layout::Document document;
  document.title = s.title.empty() ? "Trees and ground works" : s.title;
  if (s.demo) document.title += " (invented data)";
  document.author = s.author;
  document.subject = "Trees, root zones and the effect of ground works";
  document.keywords = "trees, roots, root zones, excavation, data " +
                      plan.assessment->data_version + ", seed " +
                      std::to_string(plan.assessment->simulation.seed);
  document.created = creation_date(s.date);
  document.pages = std::move(pages);
  return document;
}

}  // namespace

Result<layout::Document> make_report(const Plan& plan, const ReportOptions& options,
                                     const layout::TextMeter& meter, const Steps& steps,
                                     const RevisionHistory* history) {
  ROOTSTEAD_CHECK(tell(steps, kPlanStep, 0, 1));
  ROOTSTEAD_TRY(Sheet sheet, make_sheet(plan, options, meter, history));
  Book book(plan, meter, is_us(options.sheet) ? layout::kLetter : layout::kA4);
  book.history = history;
  const std::vector<std::function<void()>> chapters{[&] { add_cover(book); },
                                                    [&] { add_cautions(book, add_method(book)); },
                                                    [&] { add_changes(book); },
                                                    [&] { add_register(book); },
                                                    [&] { add_schedule(book); },
                                                    [&] { add_losses(book); },
                                                    [&] { add_plan(book, std::move(sheet)); },
                                                    [&] { add_protection(book, options); },
                                                    [&] { add_tree_pages(book); },
                                                    [&] { add_advice(book); },
                                                    [&] { add_trails(book); },
                                                    [&] { add_sources(book); }};
  for (std::size_t i = 0; i < chapters.size(); ++i) {
    ROOTSTEAD_CHECK(tell(steps, kChapterStep, int(i), int(chapters.size())));
    chapters[i]();
  }
  finish(book);
  return document_of(plan, std::move(book.pages));
}

std::set<std::string> outputs_in_report(const Plan& plan) {
  std::set<std::string> outputs{"report", "tree schedule", "plan sheet"};
  if (plan.advice == nullptr) return outputs;
  const Advice& advice = *plan.advice;
  const auto any_tree = [&](const auto& has) {
    return std::any_of(advice.trees.begin(), advice.trees.end(), has);
  };
  const auto hold = [&](bool held, const char* name) {
    if (held) outputs.insert(name);
  };
  hold(advice.protection.has_value(), "protection plan");
  hold(any_tree([](const TreeAdvice& t) { return !t.cuts.empty(); }),
       "method statement on root cuts");
  hold(any_tree([](const TreeAdvice& t) { return t.move.has_value(); }),
       "method statement on moving trees");
  hold(any_tree([](const TreeAdvice& t) { return t.water.has_value(); }),
       "method statement on aftercare");
  hold(advice.monitoring && !advice.monitoring->visits.empty(), "monitoring plan");
  hold(!advice.replacement.rules.empty(), "replacement table");
  return outputs;
}

Outcome write_report(const Plan& plan, const ReportOptions& options,
                     const std::filesystem::path& pdf, const Steps& steps,
                     const RevisionHistory* history) {
  const auto meter = layout::pango_meter();
  ROOTSTEAD_TRY(const layout::Document document,
                make_report(plan, options, *meter, steps, history));
  return layout::write_pdf(document, pdf, steps);
}

Outcome write_plan_picture(const Plan& plan, const std::filesystem::path& file) {
  const auto meter = layout::pango_meter();
  return layout::write_picture(make_picture(plan, kPictureWidth, *meter), file,
                               kPictureDotsPerInch);
}

}  // namespace rootstead
