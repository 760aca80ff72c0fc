#include "report/method_lines.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "engine/base/text.hpp"
#include "report/alike_lines.hpp"
#include "report/protection_drawing.hpp"

namespace rootstead {
namespace {

// Before anything else the ground, then when, then what stands and lies on it.
constexpr std::array<std::string_view, 8> kSiteTopics{
    "levels", "soil", "season", "utilities", "fence", "signs", "ground protection", "fill"};

std::size_t rank_of(std::string_view topic) {
  return static_cast<std::size_t>(std::find(kSiteTopics.begin(), kSiteTopics.end(), topic) -
                                  kSiteTopics.begin());
}

struct Placed {
  Prescription prescription;
  std::string head;
  std::vector<std::string> trees;
};

bool same_words(const Placed& a, const Placed& b) {
  const Prescription &p = a.prescription, &q = b.prescription;
  return p.text == q.text && p.reason == q.reason && p.work == q.work && a.head == b.head &&
         p.from == q.from && p.tree.empty() == q.tree.empty();
}

bool same_at_other_work(const Placed& a, const Placed& b) {
  const Prescription &p = a.prescription, &q = b.prescription;
  return !p.work.empty() && !q.work.empty() && p.work != q.work && p.text == q.text &&
         p.reason == q.reason && a.head == b.head && p.from == q.from &&
         a.trees.empty() == b.trees.empty();
}

// Of no work, and told of another tree in the same words. The stages of a move stay together.
bool same_for_other_tree(const Placed& a, const Placed& b) {
  const Prescription &p = a.prescription, &q = b.prescription;
  return p.work.empty() && q.work.empty() && !a.trees.empty() && !b.trees.empty() &&
         a.trees != b.trees && a.head == p.topic && b.head == q.topic && a.head == b.head &&
         same_but_for_figures(p, q);
}

// The stages of a move go before the topics of its prescriptions.
std::map<std::string, std::string> stages_of(const Advice& advice) {
  std::map<std::string, std::string> stages;
  const auto add = [&](const TreeAdvice& tree, const std::vector<Prescription>& list,
                       const char* stage) {
    for (const Prescription& one : list) stages.emplace(tree.tree + "\n" + one.text, stage);
  };
  for (const TreeAdvice& tree : advice.trees) {
    if (!tree.move) continue;
    add(tree, tree.move->before, "before the move");
    add(tree, tree.move->lifting_day, "lifting day");
    add(tree, tree.move->planting, "planting");
    add(tree, tree.move->after, "after the move");
  }
  return stages;
}

std::vector<Placed> placed_of(const Advice& advice) {
  const auto stages = stages_of(advice);
  std::vector<Placed> all;
  for (Prescription& one : advice.prescriptions()) {
    const auto stage = stages.find(one.tree + "\n" + one.text);
    Placed placed{std::move(one), {}, {}};
    Prescription& p = placed.prescription;
    placed.head = stage == stages.end() ? p.topic : stage->second;
    p.text = told_in_method(p);
    const auto same = std::find_if(all.begin(), all.end(),
                                   [&](const Placed& known) { return same_words(known, placed); });
    const std::string tree = p.tree;
    Placed& into = same == all.end() ? all.emplace_back(std::move(placed)) : *same;
    if (!tree.empty() && std::find(into.trees.begin(), into.trees.end(), tree) == into.trees.end())
      into.trees.push_back(tree);
  }
  return all;
}

class Grouper {
 public:
  explicit Grouper(const Plan& plan) : plan_(plan), placed_(placed_of(*plan.advice)) {}

  std::vector<MethodGroup> groups() {
    std::stable_sort(placed_.begin(), placed_.end(), [](const Placed& a, const Placed& b) {
      const bool whole = of_site(a), other = of_site(b);
      if (whole != other) return whole;
      return whole && rank_of(a.prescription.topic) < rank_of(b.prescription.topic);
    });
    using About = MethodGroup::About;
    take({About::site, {}, {}}, of_site);
    const std::vector<Placed> all = placed_;
    take({About::works, {}, {}}, [&](const Placed& p) {
      return std::any_of(all.begin(), all.end(),
                         [&](const Placed& other) { return same_at_other_work(p, other); });
    });
    for (const Work& work : plan_.site->works)
      take({About::work, work.id, {}},
           [&](const Placed& p) { return p.prescription.work == work.id; });
    const std::vector<Placed> of_trees = placed_;
    take({About::trees, {}, {}}, [&](const Placed& p) {
      if (p.prescription.work.empty() && p.trees.size() > 1) return true;
      return std::any_of(of_trees.begin(), of_trees.end(),
                         [&](const Placed& other) { return same_for_other_tree(p, other); });
    });
    for (const Tree& tree : plan_.site->trees)
      take({About::tree, tree.id, {}}, [&](const Placed& p) {
        return p.prescription.work.empty() && p.trees.size() == 1 && p.trees[0] == tree.id;
      });
    take({About::site, {}, {}}, [](const Placed&) { return true; });  // of what the site names not
    return std::move(groups_);
  }

 private:
  static bool of_site(const Placed& p) { return p.prescription.work.empty() && p.trees.empty(); }

  template <class Belongs>
  void take(MethodGroup group, const Belongs& belongs) {
    std::vector<Placed> rest;
    for (Placed& one : placed_) {
      if (!belongs(one)) {
        rest.push_back(std::move(one));
        continue;
      }
      const auto topic = std::find_if(group.topics.begin(), group.topics.end(),
                                      [&](const MethodTopic& t) { return t.head == one.head; });
      MethodTopic& into = topic == group.topics.end()
                              ? group.topics.emplace_back(MethodTopic{one.head, {}})
                              : *topic;
      into.lines.push_back({{}, std::move(one.trees), std::move(one.prescription), {}, {}, {}});
    }
    placed_ = std::move(rest);
    if (group.topics.empty()) return;
    for (MethodTopic& topic : group.topics) fold_alike(topic.lines);
    for (MethodTopic& topic : group.topics)
      for (MethodLine& line : topic.lines) line.number = "M" + std::to_string(++count_);
    groups_.push_back(std::move(group));
  }

  const Plan& plan_;
  std::vector<Placed> placed_;
  std::vector<MethodGroup> groups_;
  std::size_t count_ = 0;
};

}  // namespace

std::string told_in_method(const Prescription& p) {
  const bool counts = std::any_of(p.figures.begin(), p.figures.end(), [](const Figure& figure) {
    return figure.name.starts_with("cutting.roots-met");
  });
  if (!counts || !p.text.starts_with("Expect")) return p.text;
  return "Expect as many roots along the line as the table of this work counts for the tree; stop "
         "and call the arborist where many more or much thicker ones are met.";
}

std::vector<MethodGroup> method_lines(const Plan& plan) {
  if (plan.advice == nullptr) return {};
  return Grouper(plan).groups();
}

namespace {

// Numbers of the lines of such groups that speak of it.
template <class SpeaksOfIt>
std::string shared_lines(const std::vector<MethodGroup>& groups, MethodGroup::About about,
                         const SpeaksOfIt& speaks) {
  std::vector<std::string> numbers;
  for (const MethodGroup& group : groups) {
    if (group.about != about) continue;
    for (const MethodTopic& topic : group.topics) {
      for (const MethodLine& line : topic.lines) {
        if (speaks(line) || std::any_of(line.alike.begin(), line.alike.end(), speaks))
          numbers.push_back(line.number);
      }
    }
  }
  return runs_of(numbers);
}

}  // namespace

std::string lines_of_works_alike(const std::vector<MethodGroup>& groups, const std::string& work) {
  return shared_lines(groups, MethodGroup::About::works,
                      [&](const auto& line) { return line.prescription.work == work; });
}

std::string lines_of_trees_alike(const std::vector<MethodGroup>& groups, const std::string& tree) {
  return shared_lines(groups, MethodGroup::About::trees, [&](const auto& line) {
    return std::find(line.trees.begin(), line.trees.end(), tree) != line.trees.end();
  });
}

std::string lines_of_tree(const std::vector<MethodGroup>& groups, const std::string& tree) {
  for (const MethodGroup& group : groups) {
    if (group.about != MethodGroup::About::tree || group.id != tree) continue;
    const std::string &first = group.topics.front().lines.front().number,
                      &last = group.topics.back().lines.back().number;
    return first == last ? first : first + " to " + last;
  }
  return {};
}

}  // namespace rootstead
