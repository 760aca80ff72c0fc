// The open trench counts of Silsoe (Upson & Burgess 2013; data CC-BY), as this project's rules keep
// them: outside the repository, read where present. Header-only, for tests and validation.
#pragma once

#include <algorithm>
#include <cmath>
#include <fstream>
#include <string>
#include <vector>

#include "engine/base/text.hpp"
#include "engine/roots/field_source.hpp"
#include "engine/roots/trench_fit.hpp"

namespace rootstead::validation {

// 19- to 20-year-old poplars, 2011; the stems were not recorded.
inline constexpr double kSilsoeAssumedDiameter = 0.35;  // m

// The law of such a poplar in land ploughed for years.
inline ThickRootLaw silsoe_law(const Tables& tables) {
  Tree tree;
  tree.id = "Silsoe";
  tree.botanical_name = "Populus";
  tree.form = GrowthForm::broadleaf;
  const Species* species = tables.species_of(tree.botanical_name);
  const Length diameter = Length::metres(kSilsoeAssumedDiameter);
  const RootField field = woody_fields(tree, diameter, species, {}, tables)->central();
  return in_ploughed_land(thick_roots(tree, diameter, species, field, tables), tables);
}

// A face as they were dug, without counts: 5 m outward, 1.6 m deep.
inline TrenchFace silsoe_face(std::string tree) {
  TrenchFace face{std::move(tree), 0.2, 25, 8, {0.002, 0.005, 0.010, 0.020}, {}};
  face.counts.assign(face.columns * face.rows * face.thicker.size(), 0);
  return face;
}

// Empty where the file is not what it should be.
// Columns: tree, year, block, treatment, dist_m, depth_m (far edges), size_class_mm, count.
inline std::vector<TrenchFace> read_silsoe(const std::string& path) {
  std::vector<TrenchFace> faces;
  std::ifstream file(path);
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    const std::vector<std::string> cells = split(trimmed(line), ',');
    if (cells.size() != 8) return {};
    auto known = std::find_if(faces.begin(), faces.end(),
                              [&](const TrenchFace& face) { return face.tree == cells[0]; });
    if (known == faces.end()) {
      known = faces.insert(known, silsoe_face(cells[0]));
    }
    TrenchFace& face = *known;
    const auto distance = number_from(cells[4]), depth = number_from(cells[5]);
    if (!distance || !depth) return {};
    const auto column = static_cast<std::size_t>(std::lround(*distance / face.cell)) - 1;
    const auto row = static_cast<std::size_t>(std::lround(*depth / face.cell)) - 1;
    const std::vector<std::string> classes = {"2-5", "5-10", "10-20", ">20"};
    std::size_t size = 0;
    while (size < classes.size() && classes[size] != cells[6]) ++size;
    if (column >= face.columns || row >= face.rows || size >= classes.size()) return {};
    face.counts[face.index(column, row, size)] += number_from(cells[7]).value_or(0);
  }
  return faces;
}

}  // namespace rootstead::validation
