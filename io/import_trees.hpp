// Rows to trees. Private to the readers.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/site/tree.hpp"
#include "io/import_coordinates.hpp"
#include "io/import_problems.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {

// Ids that are unique in one import: the id or tag where the source has one, else made of the
// place ("row-12"); a second one of the same name gets "-2" and a problem says so.
class UniqueIds {
 public:
  std::string give(const std::string& wanted, const std::string& place, ProblemLog& log);

 private:
  std::set<std::string> given_;
  std::map<std::string, std::string> first_place_;
};

class TreeReader {
 public:
  // `drawn` is true where records bring their shape in project metres (vector files, drawings);
  // else positions come from cells and are transformed by `georeference` at the end.
  TreeReader(const FieldTable& table, const Georeference& georeference, bool drawn,
             ProblemLog& log);

  // One row, one tree. Fails only with unit_missing, which is a question about the whole source.
  Outcome read(const Record& record);

  // All trees, with positions and unique ids; problems of the source as a whole are said here.
  std::vector<Tree> finish();

 private:
  using Length = std::optional<EnteredLength>;

  Result<Length> length(const Record& record, Field field, std::string_view what);
  std::optional<double> angle(const Record& record, Field field, std::string_view what);
  void keep(Tree& tree, Field field, std::string_view text);  // in the notes, as written
  void unreadable(const Record& record, Field field, std::string_view what,
                  std::string_view example);

  void read_names(const Record& record, Tree& tree);
  void read_words(const Record& record, Tree& tree);
  template <class Enum, class Reader>
  void read_word(const Record& record, Field field, std::string_view what, Enum& value,
                 Reader reader, Tree& tree);
  Outcome read_stems(const Record& record, Tree& tree);
  Outcome read_stem_cell(const Record& record, Field field, Stem::Read kind,
                         const EnteredLength* measured_at, Tree& tree);
  void check_stem_count(const Record& record, const Tree& tree);
  void check_stem(Field field, const Stem& stem);
  Outcome read_sizes(const Record& record, Tree& tree);
  Outcome read_crown(const Record& record, Tree& tree);
  Result<std::optional<std::array<EnteredLength, 4>>> crown_radii(const Record& record);
  Outcome read_flare(const Record& record, Tree& tree);
  void read_flare_signs(const Record& record, Tree& tree);
  Outcome read_taper(const Record& record, Tree& tree);
  Outcome read_flare_record(const Record& record, Tree& tree);
  void read_transplant(const Record& record, Tree& tree);
  void read_lean(const Record& record, Tree& tree);
  void read_position(const Record& record, Tree& tree);
  std::optional<Point> written_position(const Record& record, bool& unreadable);
  std::optional<Point> drawn_position(const Record& record, Tree& tree);
  Outcome read_position_quality(const Record& record, Tree& tree);

  void place_trees();
  void report_girth_under_diameter_header();
  std::string subject(const Record& record, const Tree& tree) const;

  const FieldTable& table_;
  const Georeference& georeference_;
  bool drawn_;
  ProblemLog& log_;
  std::vector<Tree> trees_;
  std::vector<std::string> spare_ids_;
  std::vector<std::size_t> placed_;  // trees whose position waits in raw_
  std::vector<Point> raw_;
  std::vector<double> diameters_;  // metres, of stems read under a diameter header
  std::string label_;              // of the tree being read
};

// The circle that the points lie on, or nothing: least squares, residual at most 1 % of the radius,
// points all around. Drawings hold circles as short chords.
std::optional<Circle> circle_through(const Ring& points);

}  // namespace rootstead::io
