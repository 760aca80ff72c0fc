#include "serve/remedies.hpp"

#include <algorithm>

#include "engine/advice/told_figure.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

struct OtherWay {
  std::string work, text;
  std::vector<Work> instead;
};

std::string name_of(const Work& work) {
  return work.name.empty() || work.name == work.id ? work.id : work.id + " " + work.name;
}

bool roots_lost_by(const TreeAssessment& tree, const Work& work) {
  return is_new(work) && !work.shape.empty() && reaches(tree, work.id);
}

// Only where the advice asks for a bore: the line comes within the tree's distance.
void add_bored(const Site& alone, const Work& work, const Tables& tables,
               const RootSimulation& simulation, std::vector<OtherWay>& ways) {
  if (work.kind != WorkKind::trench) return;
  const Tree& tree = alone.trees.front();
  if (!bore_advice(tree, work, alone, tables).needed) return;
  auto bored = trench_or_bore(tree, work, alone, tables, simulation);
  if (bored)
    ways.push_back({work.id, "Bore " + name_of(work) + " beneath the roots instead of digging it.",
                    std::move(bored->bored)});
}

void add_undug(const Work& work, std::vector<OtherWay>& ways) {
  if (work.kind != WorkKind::paving || !work.digs()) return;
  Work laid = work;
  laid.depth = EnteredLength{0, LengthUnit::metre};
  ways.push_back({work.id,
                  "Build " + name_of(work) + " on top of the ground as it lies, without digging.",
                  {std::move(laid)}});
}

void add_roomless(const Work& work, std::vector<OtherWay>& ways) {
  if (!work.working_room || work.working_room->value <= 0) return;
  Work narrow = work;
  narrow.working_room.reset();
  ways.push_back({work.id,
                  "Keep machines and storage out of the room beside " + name_of(work) + ".",
                  {std::move(narrow)}});
}

std::optional<TreeAssessment> assessed_with(const Site& alone, const OtherWay& way,
                                            const Tables& tables,
                                            const RootSimulation& simulation) {
  Site site = alone;
  const auto place = std::find_if(site.works.begin(), site.works.end(),
                                  [&](const Work& work) { return work.id == way.work; });
  site.works.insert(site.works.erase(place), way.instead.begin(), way.instead.end());
  AssessOptions options;
  options.simulation = simulation;
  auto assessment = assess(site, tables, options);
  if (!assessment) return std::nullopt;
  return std::move(assessment->trees.front());
}

Json loss_of(const TreeAssessment& tree) {
  return tree.roots ? io::to_json(tree.roots->all) : Json(nullptr);
}

// Milder actions come first; what is undecided is no milder than anything.
bool milder(const Verdict& after, const Verdict& before) {
  return after.action < before.action && before.action != Action::undecided;
}

bool same(const TreeAssessment& a, const TreeAssessment& b) {
  return loss_of(a) == loss_of(b) && a.verdict.action == b.verdict.action;
}

}  // namespace

Json remedies_for(const Site& alone, const TreeAssessment& now, const Tables& tables,
                  const RootSimulation& simulation) {
  std::vector<OtherWay> ways;
  for (const Work& work : alone.works) {
    if (!roots_lost_by(now, work)) continue;
    add_bored(alone, work, tables, simulation, ways);
    add_undug(work, ways);
    add_roomless(work, ways);
  }
  Json list = Json::array();
  for (const OtherWay& way : ways) {
    const auto after = assessed_with(alone, way, tables, simulation);
    if (!after || same(*after, now)) continue;
    list.push_back({{"work", way.work},
                    {"text", way.text},
                    {"before", loss_of(now)},
                    {"after", loss_of(*after)},
                    {"removes_verdict", milder(after->verdict, now.verdict)}});
  }
  return list;
}

}  // namespace rootstead::serve
