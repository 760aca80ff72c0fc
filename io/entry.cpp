#include "io/entry.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "io/import_trees.hpp"
#include "io/import_works.hpp"
#include "io/words.hpp"

namespace rootstead::io {
namespace {

constexpr bool is_refused(NoteCode code) {
  return code == NoteCode::value_unreadable || code == NoteCode::word_unknown ||
         code == NoteCode::assumed_in_reading || code == NoteCode::not_taken ||
         code == NoteCode::shape_doubtful || code == NoteCode::vehicle_doubtful;
}

// The first thing the reader says that a person must mend. A tree may be placed later.
Outcome first_refusal(ProblemLog& log) {
  for (const Problem& problem : log.take()) {
    const bool mended = problem.blocks && problem.code != NoteCode::position_missing;
    if (mended || is_refused(problem.code))
      return Error{Code::value_invalid, problem.subject, problem.message, problem.remedy};
  }
  return Nothing{};
}

std::string subject_of(const char* noun, const Fields& fields) {
  const auto id = fields.find("id");
  return id == fields.end() || id->second.empty() ? std::string("the new ") + noun
                                                  : std::string(noun) + " " + id->second;
}

Outcome check_names(const Fields& fields, ThingSort sort, const std::string& subject) {
  const std::vector<FieldOfForm> form = form_of(sort);
  for (const auto& said : fields) {
    const bool known = std::any_of(form.begin(), form.end(), [&](const FieldOfForm& field) {
      return field.name == said.first;
    });
    if (!known)
      return Error{Code::unknown_name, subject, "there is no field \"" + said.first + "\"",
                   "use the fields of the form"};
  }
  return Nothing{};
}

// A person at a form is asked for the unit in other words than one with a file.
template <class T>
Result<T> asked_at_the_form(Result<T> read, const std::string& subject) {
  if (read || read.error().code != Code::unit_missing) return read;
  return Error{Code::unit_missing, subject, "a length has no unit: " + read.error().subject,
               "write the unit after the number, such as 900 mm or 3 ft"};
}

Result<FieldTable> table_of(const Fields& fields, ThingSort sort, const std::string& subject) {
  ROOTSTEAD_CHECK(check_names(fields, sort, subject));
  ColumnMap map;
  map.values = fields;
  return FieldTable::make(map, {}, subject);
}

Result<Import> read_drawn(const Fields& fields, const Shape& shape, ThingSort sort) {
  const std::string subject = subject_of(sort == ThingSort::work ? "work" : "barrier", fields);
  ROOTSTEAD_TRY(const FieldTable table, table_of(fields, sort, subject));
  Import import;
  ProblemLog log(subject);
  LayerKind kind;
  kind.target = sort == ThingSort::work ? LayerKind::Target::work : LayerKind::Target::barrier;
  kind.kind_from_column = true;
  Record record;
  record.shape = shape;
  ROOTSTEAD_CHECK(asked_at_the_form(WorkReader(import, log).read(record, table, kind), subject));
  ROOTSTEAD_CHECK(first_refusal(log));
  return import;
}

class FieldWriter {
 public:
  void put(const char* name, const std::string& text) {
    if (!text.empty()) fields_[name] = text;
  }
  void put(const char* name, std::string_view text) { put(name, std::string(text)); }
  void put(const char* name, const std::optional<EnteredLength>& length) {
    if (length) put(name, rootstead::to_text(*length));
  }
  void put(const char* name, const std::optional<double>& value, const char* unit) {
    if (value) put(name, shortest_number(*value) + unit);
  }
  void put(const char* name, bool yes) {
    if (yes) put(name, std::string("yes"));
  }
  // Left out where it says that nothing is known: its first value.
  template <class Word>
  requires std::is_enum_v<Word>
  void put(const char* name, Word word) {
    if (word != Word{}) put(name, word_of(word));
  }
  Fields take() { return std::move(fields_); }

 private:
  Fields fields_;
};

// "300 mm+10 in"; empty where some stems were read as diameters and others as girths.
void put_stems(FieldWriter& to, const Tree& tree) {
  if (tree.stems.empty()) return;
  std::vector<std::string> sizes;
  for (const Stem& stem : tree.stems) sizes.push_back(rootstead::to_text(stem.size));
  const bool girths = tree.stems.front().read == Stem::Read::girth;
  to.put(girths ? "stem_girth" : "stem_diameter", joined(sizes, "+"));
  to.put("measured_at", tree.stems.front().measured_at);
}

bool same_stems(const Tree& a, const Tree& b) {
  FieldWriter of_a, of_b;
  put_stems(of_a, a);
  put_stems(of_b, b);
  return of_a.take() == of_b.take();
}

void put_vehicle(FieldWriter& to, const Vehicle& vehicle) {
  to.put("vehicle", vehicle.name);
  to.put("gross_mass", vehicle.gross_mass, " kg");
  to.put("wheel_load", vehicle.wheel_load, " kN");
  to.put("contact_pressure", vehicle.contact_pressure, " kPa");
  to.put("contact_width", vehicle.contact_width);
  to.put("contact_length", vehicle.contact_length);
  to.put("passes", vehicle.passes, "");
}

void put_cover(FieldWriter& to, const GroundCover& cover) {
  to.put("cover", cover.name);
  to.put("chips", cover.chips);
  to.put("plate_width", cover.plate_width);
  to.put("plate_length", cover.plate_length);
}

template <class Word>
std::vector<std::string> words_up_to(Word last) {
  std::vector<std::string> words;
  for (int i = 0; i <= static_cast<int>(last); ++i)
    words.emplace_back(word_of(static_cast<Word>(i)));
  return words;
}
// Without the first, which says that nothing is known: the field is then left empty.
template <class Word>
std::vector<std::string> words_after_first(Word last) {
  std::vector<std::string> words = words_up_to(last);
  words.erase(words.begin());
  return words;
}

std::vector<FieldOfForm> tree_form() {
  return {{"id", "short name, unique in the project", "T17", {}, true},
          {"tag", "as on the label", "0417", {}},
          {"botanical_name", "botanical name", "Quercus robur", {}},
          {"common_name", "common name", "oak", {}},
          {"form", "growth form", "broadleaf", words_after_first(GrowthForm::other_monocot)},
          {"stem_diameter", "stem diameters, several joined by +", "450 mm", {}},
          {"stem_girth", "stem girths, instead of diameters", "141 cm", {}},
          {"measured_at", "height at which the stem was measured", "1.3 m", {}},
          {"basal_diameter", "diameter just above the root buttress", "600 mm", {}},
          {"height", "height", "14 m", {}},
          {"crown_north", "crown radius to the north", "5 m", {}},
          {"crown_east", "crown radius to the east", "5 m", {}},
          {"crown_south", "crown radius to the south", "5 m", {}},
          {"crown_west", "crown radius to the west", "5 m", {}},
          {"crown_base_height", "height of the crown base", "3 m", {}},
          {"columnar", "upright narrow form", "no", {"yes", "no"}},
          {"condition", "condition", "good", words_after_first(Condition::dead)},
          {"stage", "life stage", "mature", words_after_first(LifeStage::veteran)},
          {"lean", "lean from the vertical, degrees", "10", {}},
          {"lean_towards", "direction of the lean, degrees from north", "135", {}},
          {"flare", "root flare", "visible", words_after_first(Flare::State::buried)},
          {"flare_buried_by", "depth of the flare below the ground", "120 mm", {}},
          {"history", "how it came to stand here", "planted from nursery",
           words_after_first(GrowthHistory::moved_before)},
          {"intent", "what the project wants with it", "keep", words_after_first(Intent::remove)},
          {"clear_trunk", "palms: ground to the lowest leaf base", "4 m", {}},
          {"position_source", "how the place was measured", "tape ties", {}},
          {"position_error", "how exact the place is", "100 mm", {}},
          {"ownership", "whose it is", "client", {}},
          {"protection", "order, ordinance or permit, as stated", "", {}},
          {"category", "retention or quality category, as stated", "", {}},
          {"notes", "notes", "", {}}};
}

std::vector<FieldOfForm> work_form() {
  return {{"id", "short name, unique in the project", "W4", {}, true},
          {"name", "name", "water main", {}},
          {"kind", "kind of work", "trench", words_up_to(WorkKind::root_cut), true},
          {"state", "is it proposed, approved or there already", "proposed",
           words_up_to(WorkState::existing)},
          {"method", "way of digging", "machine", words_up_to(DigMethod::air)},
          {"width", "width", "0.6 m", {}},
          {"depth", "depth; of a fill its height", "0.9 m", {}},
          {"working_room", "room beside it that is worked in", "1 m", {}},
          {"bore_diameter", "diameter of a bore", "0.3 m", {}},
          {"spacing", "of posts along the line", "2.4 m", {}},
          {"permeable", "does water go through it", "no", {"yes", "no"}},
          {"wet", "done while the ground is wet", "no", {"yes", "no"}},
          {"fill_texture", "texture of the fill", "sand", words_after_first(SoilTexture::clay)},
          {"vehicle", "what drives there", "8 t excavator", {}},
          {"gross_mass", "its mass", "8000 kg", {}},
          {"wheel_load", "load of its heaviest wheel or one track", "25 kN", {}},
          {"contact_pressure", "pressure below wheel or track", "120 kPa", {}},
          {"contact_width", "width of one wheel or track", "0.4 m", {}},
          {"contact_length", "length of its contact", "0.5 m", {}},
          {"passes", "passes in all", "40", {}},
          {"cover", "what lies on the ground", "mats on wood chips", {}},
          {"chips", "thickness of the loose layer", "0.15 m", {}},
          {"plate_width", "width of one stiff plate", "1 m", {}},
          {"plate_length", "length of one stiff plate", "3 m", {}},
          {"date", "when it was done, where it is there already", "2024-05", {}},
          {"seen", "damage that was seen, where it is there already", "", {}},
          {"notes", "notes", "", {}}};
}

std::vector<FieldOfForm> barrier_form() {
  return {{"id", "short name, unique in the project", "B2", {}, true},
          {"name", "name", "garden wall", {}},
          {"kind", "kind of barrier", "wall", words_up_to(BarrierKind::water), true},
          {"width", "width of a line", "0.3 m", {}},
          {"depth", "depth to its underside", "0.8 m", {}},
          {"notes", "notes", "", {}}};
}

}  // namespace

Fields fields_of(const Tree& tree) {
  FieldWriter to;
  to.put("id", tree.id);
  to.put("tag", tree.tag);
  to.put("botanical_name", tree.botanical_name);
  to.put("common_name", tree.common_name);
  to.put("form", tree.form);
  put_stems(to, tree);
  to.put("basal_diameter", tree.basal_diameter);
  to.put("height", tree.height);
  if (tree.crown) {
    constexpr const char* kSides[] = {"crown_north", "crown_east", "crown_south", "crown_west"};
    for (std::size_t i = 0; i < std::size(kSides); ++i)
      to.put(kSides[i], std::optional(tree.crown->radius[i]));
    to.put("crown_base_height", tree.crown->base_height);
    to.put("columnar", tree.crown->columnar);
  }
  to.put("condition", tree.condition);
  to.put("stage", tree.stage);
  if (tree.lean) {
    to.put("lean", std::optional(tree.lean->from_vertical.degrees()), "");
    to.put("lean_towards", std::optional(tree.lean->towards.degrees()), "");
  }
  to.put("flare", tree.flare.state);
  to.put("flare_buried_by", tree.flare.buried_by);
  to.put("history", tree.history);
  to.put("intent", tree.intent);
  to.put("clear_trunk", tree.clear_trunk);
  if (tree.position) {
    to.put("position_source", tree.position->source);
    to.put("position_error", tree.position->error);
  }
  to.put("ownership", tree.ownership);
  to.put("protection", tree.protection);
  to.put("category", tree.category);
  to.put("notes", tree.notes);
  return to.take();
}

Fields fields_of(const Work& work) {
  FieldWriter to;
  to.put("id", work.id);
  to.put("name", work.name);
  to.put("kind", word_of(work.kind));
  to.put("state", word_of(work.state));
  to.put("method", word_of(work.method));
  to.put("width", work.width);
  to.put("depth", work.depth);
  to.put("working_room", work.working_room);
  to.put("bore_diameter", work.bore_diameter);
  to.put("spacing", work.spacing);
  to.put("permeable", work.permeable);
  to.put("wet", work.wet);
  to.put("fill_texture", work.fill_texture);
  if (work.vehicle) put_vehicle(to, *work.vehicle);
  if (work.cover) put_cover(to, *work.cover);
  to.put("date", work.date);
  to.put("seen", work.seen);
  to.put("notes", work.notes);
  return to.take();
}

Fields fields_of(const Barrier& barrier) {
  FieldWriter to;
  to.put("id", barrier.id);
  to.put("name", barrier.name);
  to.put("kind", word_of(barrier.kind));
  to.put("width", barrier.width);
  to.put("depth", barrier.depth);
  to.put("notes", barrier.notes);
  return to.take();
}

Result<Tree> tree_from(const Fields& fields, const std::optional<Point>& at,
                       const ReferenceSystem& system) {
  const std::string subject = subject_of("tree", fields);
  ROOTSTEAD_TRY(const FieldTable table, table_of(fields, ThingSort::tree, subject));
  ROOTSTEAD_TRY(const Georeference georeference, Georeference::make({}, system, subject));
  ProblemLog log(subject);
  TreeReader reader(table, georeference, true, log);
  Record record;
  if (at) record.shape = Shape{{}, {}, {*at}};
  ROOTSTEAD_CHECK(asked_at_the_form(reader.read(record), subject));
  std::vector<Tree> trees = reader.finish();
  ROOTSTEAD_CHECK(first_refusal(log));
  return std::move(trees.front());
}

Result<Work> work_from(const Fields& fields, const Shape& shape) {
  ROOTSTEAD_TRY(Import import, read_drawn(fields, shape, ThingSort::work));
  if (import.works.size() == 1) return std::move(import.works.front());
  return Error{Code::value_invalid, subject_of("work", fields), "it is no kind of work",
               "choose one of the kinds of the form"};
}

Result<Barrier> barrier_from(const Fields& fields, const Shape& shape) {
  ROOTSTEAD_TRY(Import import, read_drawn(fields, shape, ThingSort::barrier));
  if (import.barriers.size() == 1) return std::move(import.barriers.front());
  return Error{Code::value_invalid, subject_of("barrier", fields), "it is no kind of barrier",
               "choose one of the kinds of the form"};
}

Tree over(const Tree& before, Tree said) {
  if (same_stems(before, said)) said.stems = before.stems;
  said.flare.taper = before.flare.taper;
  said.flare.signs = before.flare.signs;
  said.flare.found = before.flare.found;
  said.origin = before.origin;
  return said;
}

Work over(const Work& before, Work said) {
  said.bore_pits = before.bore_pits;
  said.origin = before.origin;
  return said;
}

Barrier over(const Barrier& before, Barrier said) {
  said.origin = before.origin;
  return said;
}

std::vector<FieldOfForm> form_of(ThingSort sort) {
  if (sort == ThingSort::tree) return tree_form();
  return sort == ThingSort::work ? work_form() : barrier_form();
}

}  // namespace rootstead::io
