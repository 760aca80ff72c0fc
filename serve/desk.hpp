// Desk: a project that lies open before the page. It says what is drawn and what is answered, tries
// a work elsewhere without saving, and moves it. Every answer is JSON of api/schema.json. May be
// asked from several threads; one question is answered at a time.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>

#include "engine/rootstead.hpp"
#include "io/json.hpp"
#include "io/project.hpp"
#include "serve/snapshot.hpp"

namespace rootstead::serve {

// A trial is answered while a work is dragged: fewer draws, our assumption. The range of a trial is
// therefore rougher than that of what is saved.
inline constexpr int kTrialDraws = 64;

class Desk {
 public:
  Desk();  // nothing lies on it: only to be assigned to
  // `site` is that of the project, with the works that follow from its ground levels; those cannot
  // be moved. Fails as assess() does.
  // `progress` is told how many trees are assessed, from one thread at a time, and again later
  // when trees are assessed anew; it may be empty.
  using Progress = std::function<void(std::size_t done, std::size_t all)>;
  static Result<Desk> open(io::Project project, const Site& site, Tables tables,
                           const RootSimulation& simulation, Progress progress = {});
  Desk(Desk&&) noexcept;
  Desk& operator=(Desk&&) noexcept;
  ~Desk();

  // Reads the project anew where another program has changed it; what cannot be read is left as it
  // was, and moves are refused until it can.
  io::Json site();
  io::Json assessment() const;
  // What is open now, for answers that take their time; copied once a version. The desk must
  // outlive it.
  std::shared_ptr<const Snapshot> snapshot() const;

  // The first trial after a project is opened or its trees changed needs every tree once more with
  // its fewer draws. Done here beforehand, other questions are answered meanwhile.
  void prepare_trials();
  // Both fail with unknown_name where there is no such work, wrong_use where it stands already or
  // follows from levels, and invalid_geometry where the shape is of another sort than the work's or
  // makes it a work that `check` blocks.
  Result<io::Json> try_shape(const std::string& work, const Shape& shape);
  // In the project, or failed, when it returns. Fails with project_busy where `version` is not that
  // of the project, or the project was changed by another program since it was opened.
  Result<io::Json> save_shape(const std::string& work, const std::string& version,
                              const Shape& shape, const std::string& when);

  // The fields of a work, or of a tree or barrier, to be edited. Fail with unknown_name; works that
  // follow from ground levels have none.
  Result<io::Json> work(const std::string& id) const;
  Result<io::Json> survey(const std::string& id) const;
  // All of the changes, in the project when it returns, or none. Fails as edits_from() and
  // save_shape() do.
  Result<io::Json> edit(const std::string& version, const io::Json& changes,
                        const std::string& when);
  // All that was read from a source, in the project when it returns, or nothing of it; gives the
  // new version. `version` is that of the site it was read for. Fails as save_shape() and
  // Project::add() do, and with wrong_use where a work has the id of one that follows from levels.
  Result<std::string> add(const std::string& version, const io::Import& import,
                          const std::string& when);

 private:
  struct State;
  explicit Desk(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace rootstead::serve
