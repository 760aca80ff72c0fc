#include "engine/assess/root_models.hpp"

#include <cassert>

namespace rootstead {

RootModels::RootModels(const Site& site, const Tables& tables, Keep keep)
    : site_(site), tables_(tables), kept_(keep == Keep::all ? site.trees.size() : 0) {}

std::shared_ptr<RootModel> RootModels::of(const Tree& tree) {
  const auto make = [&]() -> std::shared_ptr<RootModel> {
    auto model = root_model(tree, site_, tables_);
    return model.ok() ? std::shared_ptr<RootModel>(std::move(model).value()) : nullptr;
  };
  if (kept_.empty()) return make();
  std::shared_ptr<RootModel>& kept = place_of(tree);
  if (!kept) kept = make();
  return kept;
}

void RootModels::forget(const Tree& tree) {
  if (!kept_.empty()) place_of(tree).reset();
}

std::shared_ptr<RootModel>& RootModels::place_of(const Tree& tree) {
  assert(&tree >= site_.trees.data() && &tree < site_.trees.data() + site_.trees.size());
  return kept_[static_cast<std::size_t>(&tree - site_.trees.data())];
}

}  // namespace rootstead
