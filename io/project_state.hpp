// What an open project holds.
#pragma once

#include "io/project.hpp"
#include "io/project_schema.hpp"
#include "io/sqlite.hpp"

namespace rootstead::io {

struct Project::State {
  State(Database opened, ReferenceSystem its_system)
      : database(std::move(opened)), system(std::move(its_system)), frame(frame_of(system)) {}
  Database database;
  ReferenceSystem system;
  Frame frame;
  bool recovered = false;
  // The journal entry up to which this program knows the project; empty before the first read.
  std::optional<std::int64_t> seen;
};

// The soil with its layers.
Outcome read_soil(const Project::State& state, Soil& soil);

}  // namespace rootstead::io
