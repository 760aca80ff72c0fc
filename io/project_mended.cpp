#include "io/project_mended.hpp"

#include <algorithm>
#include <array>

#include "engine/site/plausible.hpp"
#include "io/project_rows.hpp"

namespace rootstead::io {
namespace {

// "survey.csv row 12" is spoken of by itself and as "survey.csv row 12, T17".
bool is_about(const Problem& problem, const Origin& origin) {
  const std::string place = place_of(origin);
  return !origin.place.empty() &&
         (problem.subject == place || problem.subject.starts_with(place + ","));
}

struct KeptProblem {
  std::int64_t number = 0;
  Problem problem;
};

Result<std::vector<KeptProblem>> problems_about(const Database& database, const Origin& origin) {
  Statement rows(database, "SELECT fid, code, subject, message FROM problems ORDER BY fid");
  std::vector<KeptProblem> found;
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return found;
    KeptProblem kept;
    kept.number = rows.integer();
    kept.problem.code = static_cast<NoteCode>(rows.integer());
    kept.problem.subject = rows.text();
    kept.problem.message = rows.text();
    if (is_about(kept.problem, origin)) found.push_back(std::move(kept));
  }
}

template <class Mended>
Outcome forget_where(const Database& database, const Origin& origin, const Mended& mended) {
  ROOTSTEAD_TRY(const auto found, problems_about(database, origin));
  Statement remove(database, "DELETE FROM problems WHERE fid = ?");
  for (const KeptProblem& kept : found) {
    if (!mended(kept.problem)) continue;
    remove.put(kept.number);
    ROOTSTEAD_CHECK(remove.run());
  }
  return Nothing{};
}

// A size of a thing by the words that readers have for it, and whether it is known now.
struct NamedSize {
  std::string_view what;
  bool known;
};

// The message of a size that could not be read begins: the depth "x" ...
bool is_given_now(const Problem& problem, const std::vector<NamedSize>& sizes) {
  if (problem.code != NoteCode::value_unreadable) return false;
  return std::any_of(sizes.begin(), sizes.end(), [&](const NamedSize& size) {
    return size.known && problem.message.starts_with("the " + std::string(size.what) + " \"");
  });
}

bool has_sound_stems(const Tree& tree) {
  return !tree.stems.empty() &&
         std::all_of(tree.stems.begin(), tree.stems.end(), [](const Stem& stem) {
           const Length diameter = stem.diameter();
           return diameter > Length() && diameter <= plausible::kImpossibleDiameter;
         });
}

Outcome forget_imports(const Database& database, const std::string& which,
                       const std::vector<std::string>& values) {
  Statement remove(
      database,
      "DELETE FROM problems WHERE import_number IN (SELECT fid FROM imports WHERE " + which + ")");
  for (const std::string& value : values) remove.put(std::string_view(value));
  return remove.run();
}

}  // namespace

Outcome forget_problems_of(const Database& database, const Origin& origin) {
  return forget_where(database, origin, [](const Problem&) { return true; });
}

Outcome forget_mended(const Project::State& state, const Tree& tree) {
  return forget_where(state.database, tree.origin, [&](const Problem& problem) {
    if (problem.code == NoteCode::position_missing) return tree.position.has_value();
    return problem.code == NoteCode::diameter_doubtful && has_sound_stems(tree);
  });
}

Outcome forget_mended(const Project::State& state, const Work& work) {
  const std::vector<NamedSize> sizes = {{"width", work.width.has_value()},
                                        {"depth", work.depth.has_value()},
                                        {"working room", work.working_room.has_value()},
                                        {"bore diameter", work.bore_diameter.has_value()},
                                        {"spacing", work.spacing.has_value()}};
  return forget_where(state.database, work.origin,
                      [&](const Problem& problem) { return is_given_now(problem, sizes); });
}

Outcome forget_mended(const Project::State& state, const Barrier& barrier) {
  const std::vector<NamedSize> sizes = {{"width", barrier.width.has_value()},
                                        {"depth", barrier.depth.has_value()}};
  return forget_where(state.database, barrier.origin,
                      [&](const Problem& problem) { return is_given_now(problem, sizes); });
}

Outcome forget_problems_of_file(const Database& database, const std::string& source,
                                const std::string& kind) {
  return forget_imports(database, "source = ? AND kind IN (?, '')", {source, kind});
}

Outcome forget_problems_of_kind(const Database& database, const std::string& kind) {
  return forget_imports(database, "kind = ? AND gates = 0", {kind});
}

}  // namespace rootstead::io
