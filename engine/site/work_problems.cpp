// What is missing, impossible or doubtful in each work, barrier and surface by itself.
#include <string>
#include <unordered_set>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using namespace plausible;

constexpr std::string_view kBarrierTopic = "barriers";

constexpr const char* kRepair =
    "draw it again without crossings; until then its crossings are resolved by even-odd";

// One work under examination.
class WorkCheck {
 public:
  WorkCheck(const Work& work, ProblemList& problems) : work_(work), problems_(problems) {}

  void run() {
    shape();
    depth();
    width();
    room();
  }

 private:
  void blocks(NoteCode code, std::string message, std::string remedy) {
    problems_.add({true, code, subject_of(work_), std::move(message), std::move(remedy)});
  }
  void doubtful(NoteCode code, std::string message, std::string remedy) {
    problems_.add({false, code, subject_of(work_), std::move(message), std::move(remedy)});
  }

  bool is_bore() const { return work_.kind == WorkKind::bore; }

  void shape() {
    if (work_.shape.empty() && work_.bore_pits.empty()) {
      blocks(NoteCode::shape_missing, "no shape, so it can take nothing", "draw the work");
      return;
    }
    if (!is_valid(work_.shape.areas) || !is_valid(work_.bore_pits))
      doubtful(NoteCode::shape_doubtful, "an outline crosses itself or another", kRepair);
    if (is_bore() && work_.bore_pits.empty())
      doubtful(NoteCode::shape_missing, "no bore pits, so only the bore itself is weighed",
               "draw the launch and reception pits");
    const bool deep_bore = is_bore() && depth_of(work_) >= kShallowBore;
    if (!deep_bore && sized() && footprint(work_).empty())
      blocks(NoteCode::shape_missing, "the shape has neither length nor area", "draw it again");
  }

  bool sized() const { return width_of(work_) > Length(); }

  void depth() {
    const EnteredLength assumed = default_depth(work_.kind);
    if (!work_.depth) {
      if (work_.kind == WorkKind::traffic) return;
      doubtful(NoteCode::depth_assumed, "no depth; " + to_text(assumed) + " is assumed",
               "enter the depth of the work");
      return;
    }
    const Length depth = work_.depth->length();
    const std::string text = "the depth of " + to_text(*work_.depth);
    if (depth < Length()) {
      blocks(NoteCode::measure_doubtful, text + " is negative",
             "enter depths downward as positive");
    } else if (depth == Length() && needs_depth()) {
      blocks(NoteCode::measure_doubtful, text + " means that nothing is dug",
             "enter the depth of the work");
    } else if (depth > kDoubtfulDepth) {
      doubtful(NoteCode::measure_doubtful, text + " is very deep",
               "check the unit and the reading");
    }
  }

  bool needs_depth() const { return work_.digs() && work_.kind != WorkKind::paving && !is_bore(); }

  void width() {
    const bool by_line = !work_.shape.lines.empty() || !work_.shape.points.empty();
    if (!by_line || work_.kind == WorkKind::root_cut) return;
    const auto& entered = is_bore() && work_.bore_diameter ? work_.bore_diameter : work_.width;
    if (!entered) {
      if (has_own_outline()) return;
      doubtful(NoteCode::width_assumed,
               "no width; " + to_text(default_width(work_.kind)) + " is assumed",
               "enter the width of the work");
      return;
    }
    const std::string text = "the width of " + to_text(*entered);
    if (!(entered->length() > Length())) {
      blocks(NoteCode::measure_doubtful, text + " is not above zero",
             "enter the width of the work");
    } else if (entered->length() > kDoubtfulWidth) {
      doubtful(NoteCode::measure_doubtful, text + " is very wide",
               "check the unit and the reading");
    }
  }

  // A pit or building drawn by its closed outline has no use for a width.
  bool has_own_outline() const {
    if (work_.kind == WorkKind::trench || work_.kind == WorkKind::fence_posts || is_bore())
      return false;
    for (const Line& line : work_.shape.lines) {
      if (line.size() < 4 || line.front() != line.back()) return false;
    }
    return work_.shape.points.empty();
  }

  void room() {
    if (!work_.working_room) return;
    const Length room = work_.working_room->length();
    const std::string text = "the working room of " + to_text(*work_.working_room);
    if (room < Length()) {
      blocks(NoteCode::measure_doubtful, text + " is negative", "enter zero or more");
    } else if (room > kDoubtfulWidth) {
      doubtful(NoteCode::measure_doubtful, text + " is very wide",
               "check the unit and the reading");
    }
  }

  const Work& work_;
  ProblemList& problems_;
};

void check_barrier(const Barrier& barrier, ProblemList& problems) {
  const std::string subject = subject_of(barrier);
  problems.count(barrier.origin, kBarrierTopic);
  if (barrier.shape.empty()) {
    problems.add({false, NoteCode::shape_missing, subject, "no shape, so it holds nothing back",
                  "draw the barrier"});
  }
  if (!is_valid(barrier.shape.areas)) {
    problems.add({false, NoteCode::shape_doubtful, subject, "an outline crosses itself or another",
                  kRepair});
  }
  if (!barrier.depth) {
    problems.add_absent({false, NoteCode::depth_assumed, subject,
                         "no depth; " + to_text(default_depth(barrier.kind)) + " is assumed",
                         "enter the depth to its underside"},
                        barrier.origin, kBarrierTopic);
  } else if (barrier.depth->length() < Length()) {
    problems.add({true, NoteCode::measure_doubtful, subject,
                  "the depth of " + to_text(*barrier.depth) + " is negative",
                  "enter depths downward as positive"});
  }
}

void check_surface(const Surface& surface, ProblemList& problems) {
  const std::string subject = subject_of(surface);
  if (surface.area.empty()) {
    problems.add({false, NoteCode::shape_missing, subject, "no shape, so it covers nothing",
                  "draw the surface"});
  } else if (!is_valid(surface.area)) {
    problems.add({false, NoteCode::shape_doubtful, subject, "an outline crosses itself or another",
                  kRepair});
  }
}

}  // namespace

void check_works(const Site& site, ProblemList& problems) {
  std::unordered_set<std::string> ids;
  for (const Work& work : site.works) {
    WorkCheck(work, problems).run();
    if (!work.id.empty() && !ids.insert(work.id).second) {
      problems.add({true, NoteCode::tag_duplicate, subject_of(work),
                    "the id " + work.id + " is already that of another work",
                    "give each work an id of its own"});
    }
  }
}

void check_barriers_and_surfaces(const Site& site, ProblemList& problems) {
  for (const Barrier& barrier : site.barriers) check_barrier(barrier, problems);
  for (const Surface& surface : site.surfaces) check_surface(surface, problems);
}

}  // namespace rootstead
