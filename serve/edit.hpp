// Edits as the page sends them (api/schema.json): a list of changes, each of one tree, work or
// barrier, read as `rootstead add` reads a row.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "engine/site/site.hpp"
#include "io/entry.hpp"
#include "io/json.hpp"

namespace rootstead::serve {

inline constexpr std::size_t kMostChanges = 1'000;  // of one edit; our assumption

// What was there under each id since the program began, so that taking an edit back brings back
// exactly what was there, with what no form shows.
class Former {
 public:
  void remember(const Tree& tree) { trees_[tree.id].push_back(tree); }
  void remember(const Work& work) { works_[work.id].push_back(work); }
  void remember(const Barrier& barrier) { barriers_[barrier.id].push_back(barrier); }
  // The one that said exactly the same, or nothing.
  const Tree* like(const Tree& tree) const;
  const Work* like(const Work& work) const;
  const Barrier* like(const Barrier& barrier) const;

 private:
  std::map<std::string, std::vector<Tree>> trees_;
  std::map<std::string, std::vector<Work>> works_;
  std::map<std::string, std::vector<Barrier>> barriers_;
};

// Fails with unknown_name (nothing of that id to take away, a field that no form has),
// value_invalid (with the reader's sentence) or wrong_use (not a list of changes of this sort; one
// thing changed twice). `site` is that of the project itself, without works that follow from its
// levels.
Result<io::Edits> edits_from(const io::Json& changes, const Site& site, const Former& former);

// The changes that take `edits` back, as the page may send them.
io::Json inverse_of(const io::Edits& edits, const Site& before);

// The site as it will be read from the project once they are saved.
Site edited(Site site, const io::Edits& edits);

io::Json thing_json(const Tree& tree);
io::Json thing_json(const Work& work);
io::Json thing_json(const Barrier& barrier);
io::Json vocabulary_json();

}  // namespace rootstead::serve
