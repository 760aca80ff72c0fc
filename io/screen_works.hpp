// The works of a network from any source that works are read from. Private to the screening.
#pragma once

#include "io/screening.hpp"

namespace rootstead::io {

struct NetworkWorks {
  NetworkGround ground;
  std::vector<std::string> ids;  // by the number of the work
  std::size_t existing = 0;      // listed in the source, never counted
  std::size_t without_ground = 0;
  std::vector<Problem> problems;
};

// GIS layers and databases are read work by work; tables and drawings whole.
Result<NetworkWorks> read_network(const ScreenJob& job, const ReferenceSystem& grid,
                                  const ScreenProgress& progress);

}  // namespace rootstead::io
