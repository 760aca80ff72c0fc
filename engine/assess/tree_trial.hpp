// TreeTrial: one tree of a site as if it had been measured otherwise, among the same works. What it
// says of a tree as entered is what assess() says, bit for bit.
#pragma once

#include <memory>

#include "engine/assess/assess.hpp"

namespace rootstead {

class TreeTrial {
 public:
  // Fails as assess() does. Site and tables must outlive it.
  static Result<TreeTrial> start(const Site& site, const Tables& tables,
                                 const AssessOptions& options);
  TreeTrial(TreeTrial&&) noexcept;
  TreeTrial& operator=(TreeTrial&&) noexcept;
  ~TreeTrial();

  // The tree stands in for the one of the site with its id; all others stay as they were entered.
  // Many threads may ask at once.
  TreeAssessment assess(const Tree& tree) const;
  // The verdict there would be if the tree's figures were those of `assessed`.
  Verdict verdict(const Tree& tree, const TreeAssessment& assessed) const;

 private:
  struct State;
  explicit TreeTrial(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace rootstead
