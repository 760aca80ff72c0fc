#include "serve/desk.hpp"

#include <algorithm>
#include <mutex>
#include <optional>
#include <set>

#include "engine/assess/live_assessment.hpp"
#include "serve/edit.hpp"
#include "serve/plan_json.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

const Work* work_of(const Site& site, std::string_view id) {
  const auto found = std::find_if(site.works.begin(), site.works.end(),
                                  [&](const Work& work) { return work.id == id; });
  return found == site.works.end() ? nullptr : &*found;
}

bool same_sort(const Shape& a, const Shape& b) {
  return a.lines.empty() == b.lines.empty() && a.areas.empty() == b.areas.empty() &&
         a.points.empty() == b.points.empty();
}

// A tree may be entered before it is measured, as `rootstead add` takes it; until then it has no
// answers, and `check` says so.
bool may_come_later(NoteCode code) {
  return code == NoteCode::diameter_missing || code == NoteCode::position_missing;
}

// The first problem that blocks and was not there before.
const Problem* new_block(const std::vector<Problem>& before, const std::vector<Problem>& now) {
  const auto known = [&](const Problem& problem) {
    return std::any_of(before.begin(), before.end(), [&](const Problem& one) {
      return one.subject == problem.subject && one.message == problem.message;
    });
  };
  const auto found = std::find_if(now.begin(), now.end(), [&](const Problem& problem) {
    return problem.blocks && !may_come_later(problem.code) && !known(problem);
  });
  return found == now.end() ? nullptr : &*found;
}

Error refused(const Problem& problem) {
  return {Code::invalid_geometry, problem.subject, problem.message,
          problem.remedy.empty() ? "draw it otherwise" : problem.remedy};
}

}  // namespace

struct Desk::State {
  State(io::Project open_project, Tables its_tables, const RootSimulation& its_simulation,
        Progress its_progress)
      : project(std::move(open_project)),
        tables(std::move(its_tables)),
        simulation(its_simulation),
        progress(std::move(its_progress)) {}

  const Site& site() const { return exact->site(); }
  bool movable(const Work& work) const {
    return work.state != WorkState::existing && own.count(work.id) > 0;
  }
  Result<LiveAssessment> start(const Site& site) const;
  Result<LiveAssessment> start_trial(const Site& site) const;
  Outcome need_trial();
  void take(LiveAssessment opened, Site in_project);
  Outcome lay_open(const Site& site);
  Outcome read_anew();
  Outcome open_from_project();
  Site with_levels(const Site& in_project) const;
  Outcome check_version(const std::string& seen, const std::string& subject) const;
  Outcome check_levels_left_alone(const std::vector<Work>& works) const;
  bool is_of_works_alone(const io::Edits& edits) const;
  void remember(const io::Edits& edits);
  Outcome edit_whole(const io::Edits& edits, const std::string& when);
  Result<std::set<std::string>> edit_works(const io::Edits& edits, const std::string& when);
  Result<Work> moved(const std::string& id, const Shape& shape) const;
  void lay_back(const std::string& but);
  Json answers(const LiveAssessment& live, const std::string& work,
               const std::vector<std::string>& trees) const;

  io::Project project;
  Tables tables;
  RootSimulation simulation;
  Progress progress;
  std::string version;
  Site in_project;            // without what follows from its ground levels
  std::set<std::string> own;  // works of it
  Former former;
  std::optional<LiveAssessment> exact;
  std::optional<LiveAssessment> trial;       // where one was wanted since the trees were read
  std::string lifted;                        // the work that the trial has elsewhere
  std::shared_ptr<const Snapshot> snapshot;  // of `version`, where it was asked for
  mutable std::mutex asking;
  std::mutex preparing;  // of the trial; taken before `asking`
};

Result<LiveAssessment> Desk::State::start(const Site& site) const {
  AssessOptions options;
  options.simulation = simulation;
  options.progress = progress;
  return LiveAssessment::start(site, tables, options);
}

Result<LiveAssessment> Desk::State::start_trial(const Site& site) const {
  AssessOptions options;
  options.simulation = simulation;
  options.simulation.draws = std::min(simulation.draws, kTrialDraws);
  options.answers_only = true;
  return LiveAssessment::start(site, tables, options);
}

Outcome Desk::State::need_trial() {
  if (trial) return Nothing{};
  ROOTSTEAD_TRY(trial, start_trial(site()));
  return Nothing{};
}

void Desk::State::take(LiveAssessment opened, Site site_in_project) {
  in_project = std::move(site_in_project);
  own.clear();
  for (const Work& work : in_project.works) own.insert(work.id);
  exact = std::move(opened);
  trial.reset();
  lifted.clear();
}

// All or nothing: what is open stays where the site cannot be assessed.
Outcome Desk::State::lay_open(const Site& site) {
  ROOTSTEAD_TRY(std::string now, project.version());
  ROOTSTEAD_TRY(Site read, project.read());
  ROOTSTEAD_TRY(LiveAssessment opened, start(site));
  version = std::move(now);
  take(std::move(opened), std::move(read));
  return Nothing{};
}

Outcome Desk::State::read_anew() {
  ROOTSTEAD_TRY(const std::string now, project.version());
  return now == version ? Outcome(Nothing{}) : open_from_project();
}

Outcome Desk::State::open_from_project() {
  ROOTSTEAD_TRY(const Site site, project.read());
  return lay_open(with_levels(site));
}

Site Desk::State::with_levels(const Site& site) const {
  Result<Site> with_works = with_level_works(site, tables);
  return with_works ? std::move(with_works).value() : site;
}

Outcome Desk::State::check_version(const std::string& seen, const std::string& subject) const {
  if (seen == version) return Nothing{};
  return Error{Code::project_busy, subject, "another page changed the project meanwhile",
               "look at what is there now and do it again"};
}

Outcome Desk::State::check_levels_left_alone(const std::vector<Work>& works) const {
  for (const Work& work : works)
    if (own.count(work.id) == 0 && work_of(site(), work.id) != nullptr)
      return Error{Code::wrong_use, "work " + work.id, "it follows from the ground levels",
                   "give the new work another id, or change the levels"};
  return Nothing{};
}

// Then only trees within reach of them are assessed again. A new work goes to the end of the list
// in the project, so it does here: not where works of the levels stand behind.
bool Desk::State::is_of_works_alone(const io::Edits& edits) const {
  const bool levels = own.size() != site().works.size();
  const bool others =
      !edits.trees.empty() || !edits.barriers.empty() ||
      std::any_of(edits.removed.begin(), edits.removed.end(),
                  [](const auto& removed) { return removed.first != io::ThingSort::work; });
  const bool some_new = std::any_of(edits.works.begin(), edits.works.end(),
                                    [&](const Work& work) { return own.count(work.id) == 0; });
  return !others && !(levels && some_new);
}

// What was there, to be taken back to; and what is there now, to be done again.
void Desk::State::remember(const io::Edits& edits) {
  const auto every = [&](const auto& there, const auto& put) {
    for (const auto& thing : there) {
      const bool touched =
          std::any_of(put.begin(), put.end(),
                      [&](const auto& one) { return one.id == thing.id; }) ||
          std::any_of(edits.removed.begin(), edits.removed.end(),
                      [&](const auto& removed) { return removed.second == thing.id; });
      if (touched) former.remember(thing);
    }
    for (const auto& thing : put) former.remember(thing);
  };
  every(in_project.trees, edits.trees);
  every(in_project.works, edits.works);
  every(in_project.barriers, edits.barriers);
}

Outcome Desk::State::edit_whole(const io::Edits& edits, const std::string& when) {
  Site later = edited(in_project, edits);
  ROOTSTEAD_TRY(LiveAssessment opened, start(with_levels(later)));
  if (const Problem* block = new_block(exact->assessment().problems, opened.assessment().problems))
    return refused(*block);
  ROOTSTEAD_CHECK(project.edit(edits, when));
  ROOTSTEAD_TRY(version, project.version());
  remember(edits);
  take(std::move(opened), std::move(later));
  return Nothing{};
}

// Gives the trees that were assessed again. What cannot be saved is undone by reading the project.
Result<std::set<std::string>> Desk::State::edit_works(const io::Edits& edits,
                                                      const std::string& when) {
  lay_back("");
  const std::vector<Problem> problems = exact->assessment().problems;
  std::set<std::string> trees;
  const auto apply = [&](LiveAssessment& live) {
    for (const auto& [sort, id] : edits.removed)
      for (const std::string& tree : live.remove(id)) trees.insert(tree);
    for (const Work& work : edits.works)
      for (const std::string& tree : live.put(work)) trees.insert(tree);
  };
  apply(*exact);
  Outcome saved = Nothing{};
  if (const Problem* block = new_block(problems, exact->assessment().problems))
    saved = refused(*block);
  else
    saved = project.edit(edits, when);
  if (!saved) {
    ROOTSTEAD_CHECK(open_from_project());
    return saved.error();
  }
  ROOTSTEAD_TRY(version, project.version());
  if (trial) apply(*trial);
  remember(edits);
  in_project = edited(std::move(in_project), edits);
  own.clear();
  for (const Work& work : in_project.works) own.insert(work.id);
  return trees;
}

Result<Work> Desk::State::moved(const std::string& id, const Shape& shape) const {
  const Work* work = work_of(site(), id);
  if (work == nullptr)
    return Error{Code::unknown_name, "work " + id, "there is no such work", "load the page again"};
  if (!movable(*work))
    return Error{Code::wrong_use, "work " + id,
                 work->state == WorkState::existing ? "it stands already"
                                                    : "it follows from the ground levels",
                 "move a work that is proposed"};
  if (!same_sort(work->shape, shape))
    return Error{Code::invalid_geometry, "work " + id, "the shape is of another sort than the work",
                 "send lines for lines, areas for areas and points for points"};
  Work other = *work;
  other.shape = shape;
  return other;
}

// A work that was tried and then left is put back before another one is tried.
void Desk::State::lay_back(const std::string& but) {
  if (lifted.empty() || lifted == but) return;
  if (const Work* work = work_of(site(), lifted)) trial->put(*work);
  lifted.clear();
}

Json Desk::State::answers(const LiveAssessment& live, const std::string& work,
                          const std::vector<std::string>& trees) const {
  Json list = Json::array();
  const std::set<std::string> wanted(trees.begin(), trees.end());
  for (const TreeAssessment& tree : live.trees())
    if (wanted.count(tree.tree) > 0) list.push_back(io::to_json(tree, live.site()));
  const Work* laid = work_of(live.site(), work);
  return {{"version", version},
          {"draws", live.simulation().draws},
          {"work", work_on_plan(*laid, movable(*laid))},
          {"trees", std::move(list)}};
}

Desk::Desk() = default;
Desk::Desk(std::unique_ptr<State> state) : state_(std::move(state)) {}
Desk::Desk(Desk&&) noexcept = default;
Desk& Desk::operator=(Desk&&) noexcept = default;
Desk::~Desk() = default;

Result<Desk> Desk::open(io::Project project, const Site& site, Tables tables,
                        const RootSimulation& simulation, Progress progress) {
  auto state = std::make_unique<State>(std::move(project), std::move(tables), simulation,
                                       std::move(progress));
  ROOTSTEAD_CHECK(state->lay_open(site));
  return Desk(std::move(state));
}

Json Desk::site() {
  const std::lock_guard lock(state_->asking);
  [[maybe_unused]] const Outcome read = state_->read_anew();
  const Site& site = state_->site();
  Json trees = Json::array(), zones = Json::array(), works = Json::array();
  Json barriers = Json::array(), evidence = Json::array(), gates = Json::array();
  for (const Tree& tree : site.trees) trees.push_back(tree_on_plan(tree));
  for (const TreeAssessment& tree : state_->exact->assessment().trees)
    for (const ZoneAssessment& zone : tree.zones)
      if (site.tree(tree.tree)->position) zones.push_back(zone_on_plan(tree.tree, zone.zone));
  for (const Work& work : site.works) works.push_back(work_on_plan(work, state_->movable(work)));
  for (const Barrier& barrier : site.barriers) barriers.push_back(barrier_on_plan(barrier));
  for (const Evidence& opening : site.evidence) evidence.push_back(opening_on_plan(opening));
  for (const Gate& gate : site.gates) gates.push_back(to_json(gate.at));
  return {{"version", state_->version},
          {"title", site.settings.title},
          {"demo", site.settings.demo},
          {"system", {{"code", site.system.code}, {"name", site.system.name}}},
          {"units", site.settings.units == UnitSystem::us_customary ? "us" : "metric"},
          {"trees", std::move(trees)},
          {"zones", std::move(zones)},
          {"works", std::move(works)},
          {"barriers", std::move(barriers)},
          {"cautions", cautions()},
          {"evidence", std::move(evidence)},
          {"boundary", to_json(site.boundary)},
          {"gates", std::move(gates)}};
}

Json Desk::assessment() const {
  const std::lock_guard lock(state_->asking);
  Json json = {{"version", state_->version}};
  json.update(io::to_json(state_->exact->assessment(), state_->site()));
  return json;
}

std::shared_ptr<const Snapshot> Desk::snapshot() const {
  const std::lock_guard lock(state_->asking);
  std::shared_ptr<const Snapshot>& snapshot = state_->snapshot;
  if (!snapshot || snapshot->version != state_->version)
    snapshot = std::make_shared<Snapshot>(state_->version, state_->site(),
                                          state_->exact->assessment(), state_->own, state_->tables);
  return snapshot;
}

// What was saved meanwhile is not in it: then the next trial begins anew.
void Desk::prepare_trials() {
  const std::lock_guard alone(state_->preparing);
  const auto now = snapshot();
  Result<LiveAssessment> trial = state_->start_trial(now->site);
  const std::lock_guard lock(state_->asking);
  if (trial && !state_->trial && state_->version == now->version)
    state_->trial = std::move(trial).value();
}

Result<Json> Desk::try_shape(const std::string& work, const Shape& shape) {
  const std::lock_guard prepared(state_->preparing);
  const std::lock_guard lock(state_->asking);
  ROOTSTEAD_TRY(Work moved, state_->moved(work, shape));
  ROOTSTEAD_CHECK(state_->need_trial());
  state_->lay_back(work);
  state_->lifted = work;
  const auto trees = state_->trial->put(std::move(moved));
  return state_->answers(*state_->trial, work, trees);
}

Result<Json> Desk::save_shape(const std::string& work, const std::string& version,
                              const Shape& shape, const std::string& when) {
  const std::lock_guard lock(state_->asking);
  ROOTSTEAD_CHECK(state_->check_version(version, "work " + work));
  ROOTSTEAD_TRY(Work moved, state_->moved(work, shape));
  const Work before = *work_of(state_->site(), work);
  const std::vector<Problem> problems = state_->exact->assessment().problems;
  const auto trees = state_->exact->put(moved);
  const auto give_up = [&](Error error) {
    state_->exact->put(before);
    return error;
  };
  if (const Problem* block = new_block(problems, state_->exact->assessment().problems))
    return give_up(refused(*block));
  if (const Outcome saved = state_->project.save_shape(work, shape, when); !saved)
    return give_up(saved.error());
  ROOTSTEAD_TRY(state_->version, state_->project.version());
  state_->lay_back(work);
  state_->lifted.clear();
  for (Work& one : state_->in_project.works)
    if (one.id == work) one.shape = shape;
  if (state_->trial) state_->trial->put(std::move(moved));
  return state_->answers(*state_->exact, work, trees);
}

Result<Json> Desk::work(const std::string& id) const {
  const std::lock_guard lock(state_->asking);
  if (const Work* work = work_of(state_->in_project, id)) return thing_json(*work);
  const bool level = work_of(state_->site(), id) != nullptr;
  return Error{Code::unknown_name, "work " + id,
               level ? "it follows from the ground levels" : "there is no such work",
               level ? "change the levels" : "load the page again"};
}

Result<Json> Desk::survey(const std::string& id) const {
  const std::lock_guard lock(state_->asking);
  for (const Tree& tree : state_->in_project.trees)
    if (tree.id == id) return thing_json(tree);
  for (const Barrier& barrier : state_->in_project.barriers)
    if (barrier.id == id) return thing_json(barrier);
  return Error{Code::unknown_name, id, "there is no such tree or barrier", "load the page again"};
}

Result<Json> Desk::edit(const std::string& version, const Json& changes, const std::string& when) {
  const std::lock_guard lock(state_->asking);
  ROOTSTEAD_CHECK(state_->check_version(version, "the changes"));
  ROOTSTEAD_TRY(const io::Edits edits, edits_from(changes, state_->in_project, state_->former));
  ROOTSTEAD_CHECK(state_->check_levels_left_alone(edits.works));
  Json inverse = inverse_of(edits, state_->in_project);
  const bool whole = !state_->is_of_works_alone(edits);
  Json works = Json::array(), trees = Json::array();
  if (whole) {
    ROOTSTEAD_CHECK(state_->edit_whole(edits, when));
  } else {
    ROOTSTEAD_TRY(const auto again, state_->edit_works(edits, when));
    for (const TreeAssessment& tree : state_->exact->assessment().trees)
      if (again.count(tree.tree) > 0) trees.push_back(io::to_json(tree, state_->site()));
    for (const Work& work : edits.works) works.push_back(work_on_plan(work, state_->movable(work)));
  }
  return Json{{"version", state_->version},
              {"draws", state_->exact->assessment().simulation.draws},
              {"inverse", std::move(inverse)},
              {"works", std::move(works)},
              {"whole", whole},
              {"trees", std::move(trees)}};
}

Result<std::string> Desk::add(const std::string& version, const io::Import& import,
                              const std::string& when) {
  const std::lock_guard lock(state_->asking);
  ROOTSTEAD_CHECK(state_->check_version(version, import.source));
  ROOTSTEAD_TRY(const std::string in_file, state_->project.version());
  if (in_file != version)
    return Error{Code::project_busy, import.source, "another program changed the project meanwhile",
                 "load the page again"};
  ROOTSTEAD_CHECK(state_->check_levels_left_alone(import.works));
  ROOTSTEAD_CHECK(state_->project.add(import, when));
  ROOTSTEAD_CHECK(state_->open_from_project());
  return state_->version;
}

}  // namespace rootstead::serve
