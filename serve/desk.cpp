#include "serve/desk.hpp"

#include <algorithm>
#include <mutex>
#include <optional>
#include <set>

#include "engine/assess/live_assessment.hpp"
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

// The first problem that blocks and was not there before.
const Problem* new_block(const std::vector<Problem>& before, const std::vector<Problem>& now) {
  const auto known = [&](const Problem& problem) {
    return std::any_of(before.begin(), before.end(), [&](const Problem& one) {
      return one.subject == problem.subject && one.message == problem.message;
    });
  };
  const auto found = std::find_if(now.begin(), now.end(), [&](const Problem& problem) {
    return problem.blocks && !known(problem);
  });
  return found == now.end() ? nullptr : &*found;
}

Error refused(const Problem& problem) {
  return {Code::invalid_geometry, problem.subject, problem.message,
          problem.remedy.empty() ? "draw it otherwise" : problem.remedy};
}

}  // namespace

struct Desk::State {
  State(io::Project open_project, Tables its_tables, const RootSimulation& its_simulation)
      : project(std::move(open_project)),
        tables(std::move(its_tables)),
        simulation(its_simulation) {}

  const Site& site() const { return exact->site(); }
  bool movable(const Work& work) const {
    return work.state != WorkState::existing && own.count(work.id) > 0;
  }
  Outcome lay_open(Site site);
  Outcome read_anew();
  Result<Work> moved(const std::string& id, const Shape& shape) const;
  void lay_back(const std::string& but);
  Json answers(const LiveAssessment& live, const std::string& work,
               const std::vector<std::string>& trees) const;

  io::Project project;
  Tables tables;
  RootSimulation simulation;
  std::string version;
  std::set<std::string> own;  // works that are in the project itself
  std::optional<LiveAssessment> exact, trial;
  std::string lifted;                        // the work that the trial has elsewhere
  std::shared_ptr<const Standing> standing;  // of `version`, where it was asked for
  mutable std::mutex asking;
};

// All or nothing: what is open stays where the site cannot be assessed.
Outcome Desk::State::lay_open(Site site) {
  ROOTSTEAD_TRY(std::string now, project.version());
  ROOTSTEAD_TRY(const Site in_project, project.read());
  AssessOptions options;
  options.simulation = simulation;
  ROOTSTEAD_TRY(LiveAssessment whole, LiveAssessment::start(site, tables, options));
  options.simulation.draws = std::min(simulation.draws, kTrialDraws);
  ROOTSTEAD_TRY(LiveAssessment quick, LiveAssessment::start(std::move(site), tables, options));
  version = std::move(now);
  own.clear();
  for (const Work& work : in_project.works) own.insert(work.id);
  exact = std::move(whole);
  trial = std::move(quick);
  lifted.clear();
  return Nothing{};
}

Outcome Desk::State::read_anew() {
  ROOTSTEAD_TRY(const std::string now, project.version());
  if (now == version) return Nothing{};
  ROOTSTEAD_TRY(Site site, project.read());
  Result<Site> with_levels = with_level_works(site, tables);
  return lay_open(with_levels ? std::move(with_levels).value() : std::move(site));
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
  for (const TreeAssessment& tree : live.assessment().trees)
    if (wanted.count(tree.tree) > 0) list.push_back(io::to_json(tree, live.site()));
  const Work* laid = work_of(live.site(), work);
  return {{"version", version},
          {"draws", live.assessment().simulation.draws},
          {"work", work_on_plan(*laid, movable(*laid))},
          {"trees", std::move(list)}};
}

Desk::Desk(std::unique_ptr<State> state) : state_(std::move(state)) {}
Desk::Desk(Desk&&) noexcept = default;
Desk& Desk::operator=(Desk&&) noexcept = default;
Desk::~Desk() = default;

Result<Desk> Desk::open(io::Project project, Site site, Tables tables,
                        const RootSimulation& simulation) {
  auto state = std::make_unique<State>(std::move(project), std::move(tables), simulation);
  ROOTSTEAD_CHECK(state->lay_open(std::move(site)));
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
  for (const Gate& gate : site.gates) gates.push_back(Json::array({gate.at.x, gate.at.y}));
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

std::shared_ptr<const Standing> Desk::standing() const {
  const std::lock_guard lock(state_->asking);
  std::shared_ptr<const Standing>& standing = state_->standing;
  if (!standing || standing->version != state_->version)
    standing = std::make_shared<Standing>(state_->version, state_->site(),
                                          state_->exact->assessment(), state_->own, state_->tables);
  return standing;
}

Result<Json> Desk::try_shape(const std::string& work, const Shape& shape) {
  const std::lock_guard lock(state_->asking);
  ROOTSTEAD_TRY(Work moved, state_->moved(work, shape));
  state_->lay_back(work);
  state_->lifted = work;
  const auto trees = state_->trial->put(std::move(moved));
  return state_->answers(*state_->trial, work, trees);
}

Result<Json> Desk::save_shape(const std::string& work, const std::string& version,
                              const Shape& shape, const std::string& when) {
  const std::lock_guard lock(state_->asking);
  if (version != state_->version)
    return Error{Code::project_busy, "work " + work, "another page changed the project meanwhile",
                 "look at what is there now and move the work again"};
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
  state_->trial->put(std::move(moved));
  return state_->answers(*state_->exact, work, trees);
}

}  // namespace rootstead::serve
