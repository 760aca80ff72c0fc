#include "engine/levels/prepared_levels.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/levels/triangles_in_use.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kMostCells = 400'000'000;

Error surface_error(const LevelSurface& surface, Code code, std::string what, std::string remedy) {
  return {code, surface.name.empty() ? "the level surface" : "surface " + surface.name,
          std::move(what), std::move(remedy)};
}

// Twice the area of triangle a b c, positive counter-clockwise; of corners of a facet.
double turn(const Point& a, const Point& b, const Point& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// The height of the plane at a place in the triangle; none outside it. A hair's breadth outside
// counts as inside, so that no point falls between two triangles.
std::optional<double> height_in(const Facet& facet, const Point& at) {
  const auto& [a, b, c] = facet;
  const double whole = turn(a.at, b.at, c.at);
  const double wa = turn(b.at, c.at, at) / whole, wb = turn(c.at, a.at, at) / whole;
  const double wc = 1 - wa - wb;
  constexpr double kHair = -1e-9;
  if (!(wa >= kHair && wb >= kHair && wc >= kHair)) return std::nullopt;
  return wa * a.height + wb * b.height + wc * c.height;
}

}  // namespace

Result<PreparedLevels> PreparedLevels::prepare(LevelSurface surface) {
  PreparedLevels made;
  made.surface_ = std::make_shared<const LevelSurface>(std::move(surface));
  const auto& levels = made.surface_->levels;
  if (const auto* mesh = std::get_if<TriangleMesh>(&levels)) {
    ROOTSTEAD_CHECK(made.take_triangles(*mesh));
  } else {
    ROOTSTEAD_CHECK(made.take_grid(std::get<HeightGrid>(levels)));
  }
  return made;
}

Outcome PreparedLevels::take_triangles(const TriangleMesh& mesh) {
  if (mesh.triangles.empty()) {
    return surface_error(*surface_, Code::empty_geometry, "it has no triangles",
                         "give a surface that was triangulated, or points to triangulate");
  }
  if (const auto fault = fault_of(mesh)) {
    return surface_error(*surface_, Code::invalid_geometry, fault->what, fault->remedy);
  }
  TrianglesInUse in_use = triangles_in_use(mesh);
  if (in_use.kept.empty()) {
    return surface_error(*surface_, Code::empty_geometry, "none of its triangles has an area",
                         "check that its points are easting, northing and height");
  }
  if (in_use.overlapping > 0) {
    notes_.push_back({NoteCode::levels_overlap, surface_->name,
                      std::to_string(in_use.overlapping) +
                          " edges of its triangles lie over a neighbour: volumes there are counted "
                          "more than once; rebuild the surface without overlaps."});
  }
  auto triangles = std::make_shared<Triangles>();
  triangles->kept = std::move(in_use.kept);
  std::vector<Box> boxes;
  boxes.reserve(triangles->kept.size());
  for (const auto& corners : triangles->kept) {
    Line places;
    for (const std::uint32_t corner : corners) places.push_back(mesh.points[corner].at);
    boxes.push_back(box_of(places));
    extent_ = joined(extent_, boxes.back());
  }
  triangles->index = BoxIndex(boxes);
  triangles_ = std::move(triangles);
  return Nothing{};
}

Outcome PreparedLevels::take_grid(const HeightGrid& grid) {
  const auto fault = [&](std::string what, std::string remedy) {
    return surface_error(*surface_, Code::invalid_geometry, std::move(what), std::move(remedy));
  };
  if (!(grid.cell > 0) || !std::isfinite(grid.cell)) {
    return fault("its cell size of " + shortest_number(grid.cell) + " m is not above zero",
                 "give the side of its square cells in metres");
  }
  if (!is_finite(grid.north_west)) {
    return fault("the place of its north-west corner is not a number", "give it a place");
  }
  const std::size_t cells = std::size_t{grid.columns} * grid.rows;
  if (cells > kMostCells) {
    return fault("it has " + std::to_string(cells) + " cells, more than can be worked on",
                 "cut it to the site, or make its cells larger");
  }
  if (cells != grid.heights.size()) {
    return fault("it has " + std::to_string(grid.heights.size()) + " heights for " +
                     std::to_string(grid.columns) + " columns and " + std::to_string(grid.rows) +
                     " rows",
                 "give one height a cell");
  }
  for (std::uint32_t row = 0; row < grid.rows; ++row) {
    for (std::uint32_t column = 0; column < grid.columns; ++column) {
      if (!cell_height(column, row)) continue;
      const double west = grid.north_west.x + column * grid.cell;
      const double north = grid.north_west.y - row * grid.cell;
      extent_ = joined(extent_, {west, north - grid.cell, west + grid.cell, north});
    }
  }
  if (!extent_.empty()) return Nothing{};
  return surface_error(*surface_, Code::empty_geometry, "none of its cells has a height",
                       "check its value for missing heights");
}

const HeightGrid* PreparedLevels::grid() const {
  return std::get_if<HeightGrid>(&surface_->levels);
}

std::optional<double> PreparedLevels::cell_height(std::uint32_t column, std::uint32_t row) const {
  const auto& grid = std::get<HeightGrid>(surface_->levels);
  const auto height = static_cast<double>(grid.heights[std::size_t{row} * grid.columns + column]);
  if (!std::isfinite(height)) return std::nullopt;
  return height + raise_;
}

CellRange PreparedLevels::cells_meeting(const Box& box) const {
  const HeightGrid* grid = this->grid();
  if (grid == nullptr || box.empty()) return {};
  const auto clamped = [](double cells, std::uint32_t most) {
    return static_cast<std::uint32_t>(std::clamp(cells, 0.0, static_cast<double>(most)));
  };
  const auto column = [&](double x) { return (x - grid->north_west.x) / grid->cell; };
  const auto row = [&](double y) { return (grid->north_west.y - y) / grid->cell; };
  return {clamped(std::floor(column(box.min_x)), grid->columns),
          clamped(std::floor(row(box.max_y)), grid->rows),
          clamped(std::floor(column(box.max_x)) + 1, grid->columns),
          clamped(std::floor(row(box.min_y)) + 1, grid->rows)};
}

// At the north-west corner of the cell: the mean of those round it that have a height.
double PreparedLevels::corner_height(std::int64_t column, std::int64_t row) const {
  const auto& grid = std::get<HeightGrid>(surface_->levels);
  double sum = 0;
  int found = 0;
  for (const std::int64_t r : {row - 1, row}) {
    for (const std::int64_t c : {column - 1, column}) {
      if (r < 0 || c < 0 || r >= grid.rows || c >= grid.columns) continue;
      const auto height = cell_height(static_cast<std::uint32_t>(c), static_cast<std::uint32_t>(r));
      if (!height) continue;
      sum += *height;
      ++found;
    }
  }
  return sum / found;  // the cell asked about is one of them
}

void PreparedLevels::add_tents(std::uint32_t column, std::uint32_t row,
                               std::vector<Facet>& facets) const {
  const auto middle_height = cell_height(column, row);
  if (!middle_height) return;
  const auto& grid = std::get<HeightGrid>(surface_->levels);
  const auto corner = [&](std::uint32_t right, std::uint32_t down) {
    return LevelPoint{{grid.north_west.x + (column + right) * grid.cell,
                       grid.north_west.y - (row + down) * grid.cell},
                      corner_height(std::int64_t{column} + right, std::int64_t{row} + down)};
  };
  const LevelPoint middle{
      {grid.north_west.x + (column + 0.5) * grid.cell, grid.north_west.y - (row + 0.5) * grid.cell},
      *middle_height};
  const std::array<LevelPoint, 4> round{corner(0, 1), corner(1, 1), corner(1, 0), corner(0, 0)};
  for (std::size_t i = 0; i < round.size(); ++i)
    facets.push_back({middle, round[i], round[(i + 1) % round.size()]});
}

Facet PreparedLevels::facet(std::size_t triangle) const {
  const auto& mesh = std::get<TriangleMesh>(surface_->levels);
  Facet facet;
  for (std::size_t i = 0; i < 3; ++i) {
    facet[i] = mesh.points[triangles_->kept[triangle][i]];
    facet[i].height += raise_;
  }
  return facet;
}

std::vector<Facet> PreparedLevels::facets_meeting(const Box& box) const {
  std::vector<Facet> facets;
  if (box.empty()) return facets;
  if (triangles_) {
    for (const std::size_t triangle : triangles_->index.meeting(box))
      facets.push_back(facet(triangle));
    return facets;
  }
  const CellRange cells = cells_meeting(box);
  for (std::uint32_t row = cells.row0; row < cells.row1; ++row) {
    for (std::uint32_t column = cells.column0; column < cells.column1; ++column)
      add_tents(column, row, facets);
  }
  return facets;
}

std::optional<double> PreparedLevels::height_at(const Point& at) const {
  if (!is_finite(at)) return std::nullopt;
  for (const Facet& facet : facets_meeting({at.x, at.y, at.x, at.y})) {
    if (const auto height = height_in(facet, at)) return height;
  }
  return std::nullopt;
}

PreparedLevels PreparedLevels::raised(Length by) const {
  PreparedLevels copy = *this;
  copy.raise_ += by.metres();
  return copy;
}

}  // namespace rootstead
