// What an earlier import of a file brought, taken out so that the file as it is now can take its
// place. io's own; runs inside a change.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "io/project_state.hpp"

namespace rootstead::io {

class Replaced {
 public:
  // Takes out the things of the file whose sorts `import` brings, gates of the same ids, and what
  // the file was told to have wrong.
  Outcome take_out(const Project::State& state, const Import& import);
  // Gives those that came back their old places among the others.
  Outcome restore_order(const Database& database) const;
  std::size_t count() const;

 private:
  Outcome take_out_of(const Project::State& state, const std::string& table,
                      const std::string& source);
  std::map<std::string, std::map<std::string, std::int64_t>> numbers_;  // by table and id
};

}  // namespace rootstead::io
