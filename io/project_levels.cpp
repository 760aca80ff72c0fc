#include "io/project_levels.hpp"

#include <bit>
#include <cstring>

#include "engine/levels/prepared_levels.hpp"
#include "io/levels.hpp"
#include "io/project_change.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

static_assert(std::endian::native == std::endian::little, "the bytes of levels are little-endian");

constexpr std::string_view kMark = "RLV1";
enum class Kind : std::uint32_t { triangles = 1, grid = 2 };

class Writer {
 public:
  template <class T>
  void put(T value) {
    const std::size_t at = bytes_.size();
    bytes_.resize(at + sizeof(T));
    std::memcpy(bytes_.data() + at, &value, sizeof(T));
  }
  void put_text(std::string_view text) { bytes_ += text; }
  std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

class Reader {
 public:
  explicit Reader(std::string_view bytes) : bytes_(bytes) {}

  template <class T>
  T get() {
    T value{};
    if (bytes_.size() - at_ < sizeof(T)) {
      short_ = true;
      return value;
    }
    std::memcpy(&value, bytes_.data() + at_, sizeof(T));
    at_ += sizeof(T);
    return value;
  }
  std::size_t left() const { return bytes_.size() - at_; }
  bool complete() const { return !short_ && left() == 0; }

 private:
  std::string_view bytes_;
  std::size_t at_ = 0;
  bool short_ = false;
};

std::optional<TriangleMesh> mesh_from(Reader& reader) {
  const auto points = reader.get<std::uint32_t>(), triangles = reader.get<std::uint32_t>();
  constexpr std::size_t kPoint = 3 * sizeof(double), kTriangle = 3 * sizeof(std::uint32_t);
  if (reader.left() != points * kPoint + triangles * kTriangle) return std::nullopt;
  TriangleMesh mesh;
  mesh.points.reserve(points);
  for (std::uint32_t i = 0; i < points; ++i) {
    const auto x = reader.get<double>(), y = reader.get<double>(), z = reader.get<double>();
    mesh.points.push_back({{x, y}, z});
  }
  mesh.triangles.resize(triangles);
  for (auto& triangle : mesh.triangles) {
    for (std::uint32_t& corner : triangle) corner = reader.get<std::uint32_t>();
  }
  return mesh;
}

std::optional<HeightGrid> grid_from(Reader& reader) {
  HeightGrid grid;
  grid.north_west.x = reader.get<double>();
  grid.north_west.y = reader.get<double>();
  grid.cell = reader.get<double>();
  grid.columns = reader.get<std::uint32_t>();
  grid.rows = reader.get<std::uint32_t>();
  const std::size_t cells = std::size_t{grid.columns} * grid.rows;
  if (reader.left() / sizeof(float) != cells) return std::nullopt;
  grid.heights.resize(cells);
  for (float& height : grid.heights) height = reader.get<float>();
  return grid;
}

Outcome insert_surface(const Database& database, const LevelSurface& surface, LevelState state,
                       const std::string& source) {
  Statement drop(database, "DELETE FROM levels WHERE state = ?");
  drop.put(to_text(state));
  ROOTSTEAD_CHECK(drop.run());
  Statement insert(database,
                   "INSERT INTO levels (state, name, vertical_datum, date, source, surface) "
                   "VALUES (?, ?, ?, ?, ?, ?)");
  insert.put(to_text(state));
  insert.put(std::string_view(surface.name));
  insert.put(std::string_view(surface.vertical_datum));
  insert.put(std::string_view(surface.date));
  insert.put(std::string_view(source));
  const std::string bytes = level_bytes(surface);
  insert.put_bytes(bytes);
  return insert.run();
}

}  // namespace

Table levels_table() {
  return {"levels",
          "Ground levels, existing and proposed",
          {{"state", "TEXT"},
           {"name", "TEXT"},
           {"vertical_datum", "TEXT"},
           {"date", "TEXT"},
           {"source", "TEXT"},
           {"surface", "BLOB"}},
          "UNIQUE (state), CHECK (state IN ('existing', 'proposed'))"};
}

std::string level_bytes(const LevelSurface& surface) {
  Writer writer;
  writer.put_text(kMark);
  if (const auto* mesh = std::get_if<TriangleMesh>(&surface.levels)) {
    writer.put(Kind::triangles);
    writer.put(static_cast<std::uint32_t>(mesh->points.size()));
    writer.put(static_cast<std::uint32_t>(mesh->triangles.size()));
    for (const LevelPoint& point : mesh->points) {
      writer.put(point.at.x);
      writer.put(point.at.y);
      writer.put(point.height);
    }
    for (const auto& triangle : mesh->triangles) {
      for (const std::uint32_t corner : triangle) writer.put(corner);
    }
    return writer.take();
  }
  const auto& grid = std::get<HeightGrid>(surface.levels);
  writer.put(Kind::grid);
  writer.put(grid.north_west.x);
  writer.put(grid.north_west.y);
  writer.put(grid.cell);
  writer.put(grid.columns);
  writer.put(grid.rows);
  for (const float height : grid.heights) writer.put(height);
  return writer.take();
}

std::optional<std::variant<TriangleMesh, HeightGrid>> levels_from_bytes(std::string_view bytes) {
  if (!bytes.starts_with(kMark)) return std::nullopt;
  Reader reader(bytes.substr(kMark.size()));
  const auto kind = reader.get<Kind>();
  if (kind == Kind::triangles) {
    auto mesh = mesh_from(reader);
    if (mesh && reader.complete()) return std::move(*mesh);
  } else if (kind == Kind::grid) {
    auto grid = grid_from(reader);
    if (grid && reader.complete()) return std::move(*grid);
  }
  return std::nullopt;
}

Outcome read_levels_of(const Project::State& state, Site& site) {
  ROOTSTEAD_TRY(const auto there, columns_in(state.database, "levels"));
  if (there.empty()) return Nothing{};
  Statement rows(state.database,
                 "SELECT state, name, vertical_datum, date, surface FROM levels ORDER BY fid");
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return Nothing{};
    const std::string word = rows.text();
    LevelSurface surface;
    surface.name = rows.text();
    surface.vertical_datum = rows.text();
    surface.date = rows.text();
    const auto bytes = rows.bytes();
    auto levels = bytes ? levels_from_bytes(*bytes) : std::nullopt;
    const auto its_state = level_state_from(word);
    if (!levels || !its_state) {
      return state.database.broken("table levels, row \"" + word + "\": " +
                                   (its_state ? "its surface is not one (format RLV1)"
                                              : "the state is neither existing nor proposed"));
    }
    surface.levels = std::move(*levels);
    (*its_state == LevelState::existing ? site.existing_levels : site.proposed_levels) =
        std::move(surface);
  }
}

Outcome Project::save_levels(const LevelSurface& surface, LevelState state,
                             const std::string& source, const std::vector<Problem>& problems,
                             const std::string& when) {
  if (auto fine = PreparedLevels::prepare(surface); !fine) return fine.error();
  Project::State& own = *state_;
  const std::string detail =
      std::string(to_text(state)) + " levels " + surface.name + " from " + source +
      (problems.empty() ? "" : ", problems: " + std::to_string(problems.size()));
  return change(own, when, "levels", detail, {"levels", "imports", "problems", "journal"},
                [&]() -> Outcome {
                  ROOTSTEAD_TRY(const auto there, columns_in(own.database, "levels"));
                  if (there.empty())
                    ROOTSTEAD_CHECK(make_table(own.database, levels_table(), own.frame));
                  ROOTSTEAD_CHECK(insert_surface(own.database, surface, state, source));
                  Import told;
                  told.source = source;
                  told.kind = "levels";
                  told.problems = problems;
                  told.rows_read = 1;
                  return add_import_row(own, told, when);
                });
}

}  // namespace rootstead::io
