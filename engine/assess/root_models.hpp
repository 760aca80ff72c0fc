// RootModels: the root model of each tree, made when it is first asked for. Kept where a site is
// worked on, so that a moved work costs no new draws and no new ways through the ground.
#pragma once

#include <memory>
#include <vector>

#include "engine/roots/root_model.hpp"

namespace rootstead {

class RootModels {
 public:
  enum class Keep { none, all };
  // Site and tables must outlive it, and the list of trees stay as it is.
  RootModels(const Site& site, const Tables& tables, Keep keep);

  // Null where the tree has none (no position, no diameter). `tree` is one of the site's. Two
  // threads may ask at once, for two trees.
  std::shared_ptr<RootModel> of(const Tree& tree);
  void forget(const Tree& tree);

 private:
  std::shared_ptr<RootModel>& place_of(const Tree& tree);
  const Site& site_;
  const Tables& tables_;
  std::vector<std::shared_ptr<RootModel>> kept_;
};

}  // namespace rootstead
