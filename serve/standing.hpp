// Standing: an open project as it stood at one version, with its answers. Never changed once made,
// so that slow questions are answered from it while the desk goes on.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>

#include "engine/levels/prepared_levels.hpp"
#include "engine/rootstead.hpp"

namespace rootstead::serve {

class Standing {
 public:
  // `tables` must outlive it.
  Standing(std::string version, const Site& site, const Assessment& assessment,
           const std::set<std::string>& own, const Tables& tables);

  const std::string version;
  const Site site;
  const Assessment assessment;      // of `site`
  const std::set<std::string> own;  // ids of works that are in the project itself
  const Tables& tables;

  // Neither there already nor made from ground levels.
  bool movable(const Work& work) const;
  // Fails with unknown_name.
  Result<const Tree*> tree(const std::string& id) const;
  Result<const Work*> work(const std::string& id) const;
  const TreeAssessment& assessed(const Tree& tree) const;
  // Of ground levels that can be read; made when first asked for. Null where there are none.
  const PreparedLevels* existing_levels() const;
  const PreparedLevels* proposed_levels() const;

 private:
  struct Levels {
    std::once_flag once;
    std::optional<PreparedLevels> prepared;
    const PreparedLevels* of(const std::optional<LevelSurface>& surface);
  };
  mutable Levels existing_, proposed_;
};

}  // namespace rootstead::serve
