// LiveAssessment: a site that is being worked on. After each change of a work only the trees within
// its reach are assessed again, with the draws and the ways of roots that were found before.
// What it says is at every moment what assess() would say of the same site, bit for bit; with
// answers_only, areas of zones may differ in the last digit.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/assess/assess.hpp"

namespace rootstead {

class LiveAssessment {
 public:
  // Fails as assess() does. Tables must outlive it. Memory: about half a megabyte a tree in reach
  // of works, more beside barriers.
  static Result<LiveAssessment> start(Site site, const Tables& tables,
                                      const AssessOptions& options = {});
  LiveAssessment(LiveAssessment&&) noexcept;
  LiveAssessment& operator=(LiveAssessment&&) noexcept;
  ~LiveAssessment();

  const Site& site() const;
  const Assessment& assessment() const;
  // The trees of it, without looking for problems of the site anew.
  const std::vector<TreeAssessment>& trees() const;
  const RootSimulation& simulation() const;

  // Puts a work in the place of the one with its id, or adds it at the end. Returns the ids of the
  // trees that were assessed again.
  std::vector<std::string> put(Work work);
  std::vector<std::string> remove(std::string_view work);

 private:
  struct State;
  explicit LiveAssessment(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace rootstead
