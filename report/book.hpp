// The chapters of the report, in the order they are read. Private to the report room.
#pragma once

#include <string>
#include <vector>

#include "report/flow.hpp"
#include "report/plan.hpp"
#include "report/revision_history.hpp"
#include "report/wording.hpp"

namespace rootstead {

// A report being made: what it is about, and the pages so far.
struct Book {
  Book(const Plan& made_from, const layout::TextMeter& measures,
       const layout::PageFormat& pages_as);

  const Plan& plan;
  const layout::TextMeter& meter;
  layout::PageFormat format;  // of text pages
  Wording words;
  const RevisionHistory* history = nullptr;  // null: nothing is said of revisions
  std::vector<layout::Page> pages;

  struct Entry {
    std::string title, target;
    std::size_t page = 0;  // index
  };
  std::vector<Entry> contents;
  std::size_t contents_page = 0;  // index
  layout::Rect contents_box;      // kept free there
  layout::Rect cover_link;        // kept free on page 1: where the cautions are

  const Site& site() const { return *plan.site; }
  const Assessment& assessment() const { return *plan.assessment; }
  layout::Flow portrait() { return {pages, meter, format}; }
  layout::Flow landscape() { return {pages, meter, format.turned()}; }
  // A chapter opens on a page of its own and stands in the contents.
  void open_chapter(layout::Flow& flow, const std::string& title, const std::string& target);
};

void add_cover(Book& book);
layout::Flow add_method(Book& book);                // with the contents at its head
void add_cautions(Book& book, layout::Flow after);  // on its last page where they fit
void add_changes(Book& book);   // since the last issue; nothing where there was none
void add_register(Book& book);  // plans reviewed, issues made, comments answered
void add_schedule(Book& book);
void add_losses(Book& book);
void add_protection(Book& book, const ReportOptions& options);  // where there is advice
void add_tree_pages(Book& book);                                // of affected trees
void add_panels(Book& book, layout::Flow& flow, const TreeAssessment& tree);  // one part of them
void add_advice(Book& book);  // what is to be done, chapter after chapter; nothing without advice
void add_trails(Book& book);  // every figure with formula, inputs, source and status
void add_sources(Book& book);
std::size_t chapters_of_revisions(const Book& book);
// Fill what only the finished book knows: contents, running heads, page x of y.
void finish(Book& book);

// Names of places in the report.
std::string target_of(const Book& book, const TreeAssessment& tree);  // empty if it has no page
std::string name_of(const Tree& tree);   // "English oak", or the botanical name, or "tree"
std::string stems_of(const Tree& tree);  // "450 mm at 1.5 m", one line a stem
std::string rule_name(const Book& book, const std::string& id);  // title, or the id
std::string zone_name(const Book& book, const std::string& rule, const std::string& zone);
std::string intent_words(const Tree& tree);  // "meant to be moved"; empty if nobody has decided
std::string work_name(const Book& book, const std::string& id);  // "storm drain (W3)"

// Thresholds on a zone that are shares of its area, so that they can stand on its bar.
std::vector<double> share_limits(const Book& book, const ZoneAssessment& zone);

// Notes that hold for every affected tree of the kind (palms and other monocots, or all others);
// they are said once, in the chapter on method, and not again on each page.
std::vector<std::string> common_notes(const Plan& plan, bool monocots);
std::vector<std::string> notes_of(const TreeAssessment& tree);  // each once, as sentences

// Trees a reader should look at first: the strictest action, the larger concern, the larger stem.
std::vector<const TreeAssessment*> most_important(const Plan& plan, std::size_t count);

}  // namespace rootstead
