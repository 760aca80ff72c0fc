// What an open project holds.
#pragma once

#include <set>
#include <string>
#include <utility>

#include "io/database.hpp"
#include "io/project.hpp"
#include "io/project_schema.hpp"

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
  std::set<std::int64_t> own;  // entries after that which this program made
  // Of the change that is being made: the number of its entry, and the things (table, id) whose
  // state before it is written down already.
  std::int64_t number = 0;
  mutable std::set<std::pair<std::string, std::string>> remembered;
};

// The soil with its layers.
Outcome read_soil(const Project::State& state, Soil& soil);

}  // namespace rootstead::io
