// One tree, work or barrier as a form holds it: fields as texts, by the names of
// docs/formats/column-map.md, each with its unit. They are read by the readers of surveys, so a
// form takes what a table takes; but what a reader would keep in the notes or assume is refused
// here, because somebody is there to be asked.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/project.hpp"

namespace rootstead::io {

using Fields = std::map<std::string, std::string>;

// Those that say something. Read again they give the same values, to the last bit.
Fields fields_of(const Tree& tree);
Fields fields_of(const Work& work);
Fields fields_of(const Barrier& barrier);

// Fail with unknown_name (a field that the form has not), unit_missing, or value_invalid with the
// reader's own sentence.
Result<Tree> tree_from(const Fields& fields, const std::optional<Point>& at,
                       const ReferenceSystem& system);
Result<Work> work_from(const Fields& fields, const Shape& shape);
Result<Barrier> barrier_from(const Fields& fields, const Shape& shape);

// `before` with what the form says in place of what it said; what no form shows (bore pits, records
// of an uncovered flare, where it came from) stays.
Tree over(const Tree& before, Tree said);
Work over(const Work& before, Work said);
Barrier over(const Barrier& before, Barrier said);

struct FieldOfForm {
  std::string name, meaning, example;
  std::vector<std::string> words;  // the only ones taken; empty: any text
  bool required = false;
};
std::vector<FieldOfForm> form_of(ThingSort sort);

}  // namespace rootstead::io
