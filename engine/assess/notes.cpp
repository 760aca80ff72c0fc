// The cautions of one tree, gathered from everything that was said about it.
#include <algorithm>

#include "engine/assess/tree_assessor.hpp"

namespace rootstead {
namespace {

void add(std::vector<Note>& notes, Note note) {
  const bool known = std::any_of(notes.begin(), notes.end(), [&](const Note& other) {
    return other.code == note.code && other.subject == note.subject && other.text == note.text;
  });
  if (!known) notes.push_back(std::move(note));
}

// Works that bear on the tree in any of the ways there are, in the order of the site.
std::vector<const Work*> bearing_works(const TreeAssessment& tree, const Site& site) {
  const auto bears = [&](const std::string& id) {
    for (const ZoneAssessment& one : tree.zones) {
      for (const ZoneLoss::ByWork& by : one.loss.by_work) {
        if (by.work == id) return true;
      }
    }
    if (tree.roots) {
      for (const RootLoss::ByWork& by : tree.roots->by_work) {
        if (by.work == id && by.alone.high > 0) return true;
      }
    }
    return tree.anchorage &&
           std::count(tree.anchorage->works.begin(), tree.anchorage->works.end(), id) > 0;
  };
  std::vector<const Work*> works;
  for (const Work& work : site.works) {
    if (bears(work.id)) works.push_back(&work);
  }
  return works;
}

bool has_depth(WorkKind kind) {
  return kind != WorkKind::traffic;
}

bool has_width(WorkKind kind) {
  return kind == WorkKind::trench || kind == WorkKind::fence_posts;
}

void add_notes_of(const Work& work, std::vector<Note>& notes) {
  const std::string_view kind = to_text(work.kind);
  if (!work.depth && has_depth(work.kind)) {
    add(notes, {NoteCode::depth_assumed, work.id,
                "no depth is recorded: " + to_text(default_depth(work.kind)) +
                    " is assumed for a " + std::string(kind)});
  }
  if (!work.width && has_width(work.kind) && work.shape.areas.empty()) {
    add(notes, {NoteCode::width_assumed, work.id,
                "no width is recorded: " + to_text(default_width(work.kind)) +
                    " is assumed for a " + std::string(kind)});
  }
  if (!is_new(work)) {
    add(notes,
        {NoteCode::existing_work_near, work.id,
         "it exists already and is no part of the shares and root losses, which speak of new "
         "works; beside new cuts its own cut is counted in the anchorage kept"});
  }
}

}  // namespace

void TreeAssessor::add_notes(const Tree& tree, TreeAssessment& result) const {
  std::vector<Note>& notes = result.notes;
  for (const ZoneAssessment& one : result.zones) {
    for (const Note& note : one.zone.notes) add(notes, note);
  }
  if (!tree.position) {
    add(notes, {NoteCode::position_missing, tree.label(),
                "it has no position: its zones have a size but no place, and no work can be laid "
                "over them"});
  }
  if (result.estimate) {
    for (const Note& note : result.estimate->notes) add(notes, note);
  }
  if (result.anchorage && !result.anchorage->works.empty()) {
    for (const Note& note : result.anchorage->notes) add(notes, note);
  }
  for (const Work* work : bearing_works(result, site_)) add_notes_of(*work, notes);
}

}  // namespace rootstead
