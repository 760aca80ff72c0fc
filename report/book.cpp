#include "report/book.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::kHairline;
using layout::Page;
using layout::PageFormat;
using layout::Pen;
using layout::Rect;
using layout::Role;
using layout::TextStyle;

namespace {

const TextStyle kFooter{.points = layout::kSmallestType, .tabular = true, .colour = layout::kGrey};
constexpr double kFooterFromEdge = 12;

int severity(Action action) {
  switch (action) {
    case Action::keep:
      return 0;
    case Action::keep_with_measures:
      return 1;
    case Action::undecided:
      return 2;
    case Action::assess_further:
      return 3;
    case Action::transplant:
      return 4;
    case Action::remove:
      return 5;
  }
  return 0;
}

int level(Concern concern) {
  return concern == Concern::unknown ? 1 : int(concern);
}

void draw_contents(Book& book) {
  if (book.contents_box.h <= 0) return;
  Pen pen(book.pages.at(book.contents_page), book.meter);
  double y = book.contents_box.y;
  pen.tagged(Role::list, [&] {
    for (const Book::Entry& entry : book.contents) {
      pen.tagged(Role::list_item, [&] {
        const Rect title =
            pen.text({book.contents_box.x, y}, entry.title, layout::kBody, {}, entry.target);
        const Rect page = pen.text({book.contents_box.right(), y}, std::to_string(entry.page + 1),
                                   aligned(layout::kBody, Align::right), {}, entry.target);
        const double line = title.bottom() - 1.1;
        pen.line({title.right() + 2, line}, {page.x - 2, line},
                 {0.15, layout::kQuiet, {0.15, 1.2}});
        y = title.bottom() + 1;
      });
    }
  });
}

void draw_cover_link(Book& book) {
  for (const Book::Entry& entry : book.contents) {
    if (entry.target != "cautions") continue;
    Pen pen(book.pages.front(), book.meter);
    pen.text({book.cover_link.x, book.cover_link.y},
             "All cautions: page " + std::to_string(entry.page + 1),
             coloured(layout::kSmall, layout::kAccent), {}, entry.target);
  }
}

std::string data_line(const Book& book) {
  const Assessment& a = book.assessment();
  return "Data " + a.data_version + " · seed " + std::to_string(a.simulation.seed) + " · " +
         with_thousands(a.simulation.draws) + " draws · " +
         "rules in the tables: " + std::to_string(book.plan.tables->rules.size()) +
         " · species rows: " + std::to_string(book.plan.tables->species.size());
}

void draw_footer(Book& book, std::size_t index) {
  Page& page = book.pages[index];
  const ProjectSettings& s = book.site().settings;
  const bool sheet = std::any_of(page.elements.begin(), page.elements.end(),
                                 [](const auto& e) { return e.name == "frame"; });
  Pen pen(page, book.meter);
  const std::string number =
      "Page " + std::to_string(index + 1) + " of " + std::to_string(book.pages.size());
  if (sheet) {  // a drawing has its own title block; its number stands in the lower edge
    pen.text({page.width - 9, page.height - 6}, number, aligned(kFooter, Align::right), "page-no");
    return;
  }
  const PageFormat format = page.width > page.height ? book.format.turned() : book.format;
  const double left = format.left, right = page.width - format.right;
  const double y = page.height - kFooterFromEdge;
  pen.line({left, y - 1.6}, {right, y - 1.6}, kHairline);
  std::string title = s.title;
  if (!s.revision.empty()) title += " · rev " + s.revision;
  if (!s.date.empty()) title += " · " + s.date;
  if (s.demo) title = "INVENTED DATA · " + title;
  pen.text({left, y}, pen.shortened(title, kFooter, right - left - 30), kFooter, "running-title");
  pen.text({left, y + 3.3}, pen.shortened(data_line(book), kFooter, right - left - 30), kFooter,
           "running-data");
  pen.text({right, y}, number, aligned(kFooter, Align::right), "page-no");
}

}  // namespace

Book::Book(const Plan& made_from, const layout::TextMeter& measures, const PageFormat& pages_as)
    : plan(made_from), meter(measures), format(pages_as), words(made_from.site->settings.units) {}

void Book::open_chapter(layout::Flow& flow, const std::string& title, const std::string& target) {
  flow.heading(1, title, target);
  flow.need(0);  // set now, so that its page is known
  contents.push_back({title, target, pages.size() - 1});
}

void finish(Book& book) {
  draw_contents(book);
  draw_cover_link(book);
  for (std::size_t i = 0; i < book.pages.size(); ++i) draw_footer(book, i);
}

std::string target_of(const Book& book, const TreeAssessment& tree) {
  if (!tree.affected()) return {};
  const auto index = &tree - book.assessment().trees.data();
  return "tree-" + std::to_string(index);
}

std::string name_of(const Tree& tree) {
  if (!tree.common_name.empty()) return sentence_case(tree.common_name);
  return tree.botanical_name.empty() ? "Tree, species not recorded" : tree.botanical_name;
}

std::string stems_of(const Tree& tree) {
  std::vector<std::string> lines;
  for (const Stem& stem : tree.stems) {
    std::string line = stem.read == Stem::Read::girth ? "girth " : "";
    line += entered(stem.size);
    if (stem.measured_at) line += " at " + entered(stem.measured_at);
    lines.push_back(line);
  }
  return lines.empty() ? "not measured" : joined(lines, "\n");
}

std::string rule_name(const Book& book, const std::string& id) {
  const ZoneRule* rule = book.plan.tables->rule(id);
  return rule == nullptr || rule->title.empty() ? id : rule->title;
}

std::string zone_name(const Book& book, const std::string& rule, const std::string& zone) {
  const ZoneRule* known = book.plan.tables->rule(rule);
  if (known != nullptr)
    for (const ZoneDefinition& one : known->zones)
      if (one.id == zone) return one.name + " (" + rule + ")";
  return zone + " (" + rule + ")";
}

std::string intent_words(const Tree& tree) {
  switch (tree.intent) {
    case Intent::keep:
      return "meant to stay";
    case Intent::move:
      return "meant to be moved";
    case Intent::remove:
      return "meant to be removed";
    default:
      return {};
  }
}

std::string work_name(const Book& book, const std::string& id) {
  const Work* work = book.site().work(id);
  if (work == nullptr || work->name.empty() || work->name == id) return id;
  return work->name + " (" + id + ")";
}

std::vector<double> share_limits(const Book& book, const ZoneAssessment& zone) {
  std::vector<double> shares;
  const ZoneRule* rule = book.plan.tables->rule(zone.zone.rule);
  if (rule == nullptr) return shares;
  for (const LimitResult& result : zone.limits) {
    for (const LimitDefinition& definition : rule->limits) {
      const bool share = definition.measure == LimitDefinition::Measure::area_share ||
                         definition.measure == LimitDefinition::Measure::trench_side;
      if (definition.id == result.limit && share) shares.push_back(result.threshold);
    }
  }
  return shares;
}

namespace {

// Of a work, not of the tree whose page it stands on: the sentence must say of which.
bool is_about_a_work(const Note& note) {
  return note.code == NoteCode::existing_work_near ||
         note.text.starts_with("no depth is recorded") ||
         note.text.starts_with("no width is recorded");
}

}  // namespace

std::vector<std::string> notes_of(const TreeAssessment& tree) {
  std::vector<std::string> notes;
  for (const Note& note : tree.notes) {
    const std::string text =
        is_about_a_work(note) ? note.subject + ": " + note.text : sentence_case(note.text);
    if (std::find(notes.begin(), notes.end(), text) == notes.end()) notes.push_back(text);
  }
  return notes;
}

std::vector<std::string> common_notes(const Plan& plan, bool monocots) {
  std::vector<std::string> common;
  std::size_t trees = 0;
  for (const TreeAssessment& assessed : plan.assessment->trees) {
    const Tree* tree = tree_of(plan, assessed);
    if (tree == nullptr || !assessed.affected() || tree->is_monocot() != monocots) continue;
    const std::vector<std::string> notes = notes_of(assessed);
    if (trees++ == 0) {
      common = notes;
      continue;
    }
    std::erase_if(common, [&](const std::string& text) {
      return std::find(notes.begin(), notes.end(), text) == notes.end();
    });
  }
  return trees > 1 ? common : std::vector<std::string>{};
}

std::vector<const TreeAssessment*> most_important(const Plan& plan, std::size_t count) {
  std::vector<const TreeAssessment*> trees;
  for (const TreeAssessment& tree : plan.assessment->trees) {
    if (tree.verdict.action != Action::keep) trees.push_back(&tree);
  }
  const auto stem = [&](const TreeAssessment* t) {
    const Tree* tree = tree_of(plan, *t);
    return tree == nullptr ? Length{} : drawn_diameter(*tree);
  };
  const auto first = [&](const TreeAssessment* a, const TreeAssessment* b) {
    const Verdict &u = a->verdict, &v = b->verdict;
    if (severity(u.action) != severity(v.action)) return severity(u.action) > severity(v.action);
    const int ca = std::max(level(u.vitality), level(u.stability));
    const int cb = std::max(level(v.vitality), level(v.stability));
    return ca != cb ? ca > cb : stem(a) > stem(b);
  };
  std::stable_sort(trees.begin(), trees.end(), first);
  if (trees.size() > count) trees.resize(count);
  return trees;
}

}  // namespace rootstead
