#include "io/import_works.hpp"

#include <array>
#include <iterator>
#include <utility>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"

namespace rootstead::io {
namespace {

using Target = LayerKind::Target;

// Ends that meet within a millimetre: drawings close outlines by eye.
constexpr double kClosed = 0.001;

bool is_closed(const Line& line) {
  if (line.size() < 4) return false;
  const double dx = line.front().x - line.back().x, dy = line.front().y - line.back().y;
  return dx * dx + dy * dy <= kClosed * kClosed;
}

}  // namespace

Outcome WorkReader::read(const Record& record, const FieldTable& table, const LayerKind& of_layer) {
  if (!record.shape || record.shape->empty()) {
    log_.add_blocking(NoteCode::not_taken, record.place, "it has no shape and is not taken",
                      "draw it, or give its shape in a column of well-known text (wkt)");
    return Nothing{};
  }
  const LayerKind kind = kind_of(record, table, of_layer);
  if (kind.target == Target::work) return read_work(record, table, kind.work);
  if (kind.target == Target::barrier) return read_barrier(record, table, kind.barrier);
  if (kind.target == Target::gate) return read_gate(record, table);
  if (kind.target == Target::boundary) read_boundary(record);
  if (kind.target == Target::surface) read_surface(record, table, kind.permeable);
  return Nothing{};
}

LayerKind WorkReader::kind_of(const Record& record, const FieldTable& table,
                              const LayerKind& of_layer) {
  const std::string_view word = table.text(record, Field::kind);
  // Among works a "building" is one to be built; as a layer's name it is one that stands.
  if (of_layer.target == Target::work) {
    if (const auto work = work_kind_from(word)) return {Target::work, *work, {}, {}, false, false};
  }
  const auto named = word.empty() ? std::nullopt : layer_kind_from(word);
  if (named && (of_layer.kind_from_column || named->target == of_layer.target)) return *named;
  if (!of_layer.kind_from_column) return of_layer;
  LayerKind assumed = of_layer;
  const Shape& shape = *record.shape;
  const bool outline =
      shape.areas.empty() && !shape.lines.empty() && is_closed(shape.lines.front());
  const bool area = outline || (shape.lines.empty() && !shape.areas.empty());
  if (of_layer.target == Target::work) assumed.work = area ? WorkKind::pit : WorkKind::trench;
  if (of_layer.target == Target::barrier)
    assumed.barrier = area ? BarrierKind::building : BarrierKind::wall;
  const std::string taken(of_layer.target == Target::work ? to_text(assumed.work)
                                                          : to_text(assumed.barrier));
  const std::string what = word.empty()
                               ? std::string("what it is is not said")
                               : "\"" + std::string(word) + "\" is no kind of work or barrier";
  log_.add_repeated(NoteCode::assumed_in_reading, record.place, what + "; it is read as a " + taken,
                    "say it in a column mapped to kind, or in [layers] of a column map");
  return assumed;
}

std::string WorkReader::id_of(const Record& record, const FieldTable& table) {
  const std::string_view id = table.text(record, Field::id);
  return id.empty() ? record.spare_id : std::string(id);
}

Result<std::optional<EnteredLength>> WorkReader::length(const Record& record,
                                                        const FieldTable& table, Field field,
                                                        std::string_view what) {
  const std::string_view id = table.text(record, Field::id);
  const std::string place = record.place + (id.empty() ? "" : ", " + std::string(id));
  return length_cell(record, table, field, what, log_, place, "900 mm", Unreadable::blocks);
}

// Closed lines become areas; open ones stay lines and are reported.
Shape WorkReader::as_areas(const Record& record, std::string_view what) {
  Shape shape = *record.shape;
  std::vector<Line> open;
  for (Line& line : shape.lines) {
    if (!is_closed(line)) {
      open.push_back(std::move(line));
      continue;
    }
    line.pop_back();
    shape.areas.push_back({std::move(line), {}});
  }
  shape.lines = std::move(open);
  if (!shape.lines.empty())
    log_.add(NoteCode::shape_doubtful, record.place,
             "the outline of the " + std::string(what) + " is open", "close it in the source");
  return shape;
}

Outcome WorkReader::read_work(const Record& record, const FieldTable& table, WorkKind kind) {
  Work work;
  work.kind = kind;
  work.name = table.text(record, Field::name);
  work.notes = table.text(record, Field::notes);
  work.origin = {log_.file(), record.place};
  const bool outline_of_line_kind =
      kind == WorkKind::trench && record.shape->lines.empty() && !record.shape->areas.empty();
  if (outline_of_line_kind) {
    work.kind = WorkKind::pit;
    log_.add(NoteCode::assumed_in_reading, record.place,
             "a trench drawn as an outline is read as a pit",
             "draw its centre line and give its width");
  }
  work.shape = is_area_kind(work.kind) ? as_areas(record, to_text(work.kind)) : *record.shape;
  // The only ground a bore opens is that of its pits.
  if (work.kind == WorkKind::bore) work.bore_pits = std::exchange(work.shape.areas, {});
  read_work_words(record, table, work);
  ROOTSTEAD_CHECK(read_work_sizes(record, table, work));
  work.id = work_ids_.give(id_of(record, table), record.place, log_);
  import_.works.push_back(std::move(work));
  return Nothing{};
}

void WorkReader::read_work_words(const Record& record, const FieldTable& table, Work& work) {
  const auto word = [&](Field field, std::string_view what, auto& value, auto reader) {
    const std::string_view cell = table.text(record, field);
    if (cell.empty()) return;
    if (const auto read = reader(cell)) {
      value = *read;
      return;
    }
    if (!work.notes.empty()) work.notes += "; ";
    work.notes += table.column(field) + ": " + std::string(cell);
    log_.add(NoteCode::word_unknown, record.place,
             "\"" + std::string(cell) + "\" is no word known for the " + std::string(what) +
                 "; it is kept in the notes",
             "column \"" + table.column(field) + "\": use the words of docs/formats/column-map.md");
  };
  word(Field::state, "state", work.state, work_state_from);
  word(Field::method, "way of digging", work.method, dig_method_from);
  word(Field::permeable, "permeability", work.permeable, yes_no_from);
  word(Field::wet, "wetness of the ground", work.wet, yes_no_from);
  word(Field::fill_texture, "texture of the fill", work.fill_texture, soil_texture_from);
  work.date = table.text(record, Field::date);
  work.seen = table.text(record, Field::seen);
}

Outcome WorkReader::read_work_sizes(const Record& record, const FieldTable& table, Work& work) {
  ROOTSTEAD_TRY(work.width, length(record, table, Field::width, "width"));
  ROOTSTEAD_TRY(work.depth, length(record, table, Field::depth, "depth"));
  ROOTSTEAD_TRY(work.working_room, length(record, table, Field::working_room, "working room"));
  ROOTSTEAD_TRY(work.bore_diameter, length(record, table, Field::bore_diameter, "bore diameter"));
  ROOTSTEAD_TRY(work.spacing, length(record, table, Field::spacing, "spacing"));
  return read_vehicle(record, table, work);
}

Outcome WorkReader::read_barrier(const Record& record, const FieldTable& table, BarrierKind kind) {
  Barrier barrier;
  barrier.kind = kind;
  barrier.name = table.text(record, Field::name);
  barrier.notes = table.text(record, Field::notes);
  barrier.origin = {log_.file(), record.place};
  barrier.shape = is_area_kind(kind) ? as_areas(record, to_text(kind)) : *record.shape;
  ROOTSTEAD_TRY(barrier.width, length(record, table, Field::width, "width"));
  ROOTSTEAD_TRY(barrier.depth, length(record, table, Field::depth, "depth"));
  barrier.id = barrier_ids_.give(id_of(record, table), record.place, log_);
  import_.barriers.push_back(std::move(barrier));
  return Nothing{};
}

void WorkReader::read_surface(const Record& record, const FieldTable& table, bool permeable) {
  Shape shape = as_areas(record, "surface");
  if (shape.areas.empty()) {
    log_.add(NoteCode::not_taken, record.place, "a surface needs an area and is not taken",
             "draw it as a polygon or a closed line");
    return;
  }
  Surface surface;
  surface.name = table.text(record, Field::name);
  surface.permeable = permeable;
  surface.area = std::move(shape.areas);
  surface.origin = {log_.file(), record.place};
  if (const auto told = yes_no_from(table.text(record, Field::permeable)))
    surface.permeable = *told;
  surface.id = surface_ids_.give(id_of(record, table), record.place, log_);
  import_.surfaces.push_back(std::move(surface));
}

void WorkReader::read_boundary(const Record& record) {
  Shape shape = as_areas(record, "boundary");
  if (shape.areas.empty()) {
    log_.add_blocking(NoteCode::not_taken, record.place,
                      "a boundary needs an area and is not taken",
                      "draw it as a polygon or a closed line");
    return;
  }
  std::move(shape.areas.begin(), shape.areas.end(), std::back_inserter(import_.boundary));
}

// A gate is a point; or a line across it, which is as wide as it is long.
Outcome WorkReader::read_gate(const Record& record, const FieldTable& table) {
  ROOTSTEAD_TRY(const auto width, length(record, table, Field::width, "width"));
  const Shape& shape = *record.shape;
  const auto add = [&](const Point& at, const EnteredLength& as_wide) {
    const std::string id = gate_ids_.give(id_of(record, table), record.place, log_);
    import_.gates.push_back({id, at, width.value_or(as_wide)});
  };
  for (const Point& point : shape.points) add(point, Gate{}.width);
  for (const Line& line : shape.lines) {
    const Point &a = line.front(), &b = line.back();
    add({(a.x + b.x) / 2, (a.y + b.y) / 2}, {distance(a, b).metres(), LengthUnit::metre});
  }
  if (!shape.areas.empty())
    log_.add(NoteCode::not_taken, record.place, "an area is no gate and is not taken",
             "draw each gate as a point, or as a line across it");
  return Nothing{};
}

}  // namespace rootstead::io
