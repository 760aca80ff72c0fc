// Problems of sources that no longer hold: what they spoke of was taken away, given by hand, or
// read again. io's own; each runs inside a change.
#pragma once

#include "io/project_state.hpp"

namespace rootstead::io {

// The thing is gone: whatever a source said of it.
Outcome forget_problems_of(const Database& database, const Origin& origin);
// The thing is as it is now: what a source lacked or could not be read of it, and it has now.
Outcome forget_mended(const Project::State& state, const Tree& tree);
Outcome forget_mended(const Project::State& state, const Work& work);
Outcome forget_mended(const Project::State& state, const Barrier& barrier);

// What was read of a file under this kind is no longer the project's.
Outcome forget_problems_of_file(const Database& database, const std::string& source,
                                const std::string& kind);
// The project has another one in place of it, whatever file it came from: soil, boundary
// (a file that brought gates too keeps its problems: gates are not replaced).
Outcome forget_problems_of_kind(const Database& database, const std::string& kind);

}  // namespace rootstead::io
