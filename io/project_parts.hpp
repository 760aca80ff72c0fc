// Tables whose rows belong to a thing of another table.
#pragma once

#include <string>
#include <vector>

namespace rootstead::io {

struct PartTable {
  std::string table;
  std::string owner;  // the column that names the thing
};

// Of "trees", "works" or "evidence_pits"; none for others.
inline const std::vector<PartTable>& parts_of(const std::string& table) {
  static const std::vector<PartTable> of_trees{
      {"stems", "tree_id"},          {"crowns", "tree_id"},      {"flares", "tree_id"},
      {"taper_readings", "tree_id"}, {"flare_signs", "tree_id"}, {"flare_records", "tree_id"}};
  static const std::vector<PartTable> of_works{
      {"bore_pits", "work_id"}, {"vehicles", "work_id"}, {"ground_covers", "work_id"}};
  static const std::vector<PartTable> of_openings{{"evidence_roots", "evidence_id"}}, none;
  if (table == "trees") return of_trees;
  if (table == "works") return of_works;
  return table == "evidence_pits" ? of_openings : none;
}

}  // namespace rootstead::io
