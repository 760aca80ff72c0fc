#include "serve/standing.hpp"

#include <cassert>

namespace rootstead::serve {

Standing::Standing(std::string its_version, const Site& its_site, const Assessment& its_assessment,
                   const std::set<std::string>& its_own, const Tables& its_tables)
    : version(std::move(its_version)),
      site(its_site),
      assessment(its_assessment),
      own(its_own),
      tables(its_tables) {}

bool Standing::movable(const Work& work) const {
  return work.state != WorkState::existing && own.count(work.id) > 0;
}

Result<const Tree*> Standing::tree(const std::string& id) const {
  if (const Tree* tree = site.tree(id)) return tree;
  return Error{Code::unknown_name, "tree " + id, "there is no such tree", "load the page again"};
}

Result<const Work*> Standing::work(const std::string& id) const {
  if (const Work* work = site.work(id)) return work;
  return Error{Code::unknown_name, "work " + id, "there is no such work", "load the page again"};
}

// The assessment's trees are in the order of the site's.
const TreeAssessment& Standing::assessed(const Tree& tree) const {
  const auto index = static_cast<std::size_t>(&tree - site.trees.data());
  assert(index < assessment.trees.size() && assessment.trees[index].tree == tree.id);
  return assessment.trees[index];
}

const PreparedLevels* Standing::Levels::of(const std::optional<LevelSurface>& surface) {
  if (!surface) return nullptr;
  std::call_once(once, [&] {
    auto made = PreparedLevels::prepare(*surface);
    if (made) prepared = std::move(made).value();
  });
  return prepared ? &*prepared : nullptr;
}

const PreparedLevels* Standing::existing_levels() const {
  return existing_.of(site.existing_levels);
}

const PreparedLevels* Standing::proposed_levels() const {
  return proposed_.of(site.proposed_levels);
}

}  // namespace rootstead::serve
