// The fields of a thing in two states, told where they differ. The room's own.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/amount_text.hpp"
#include "engine/revisions/compare.hpp"

namespace rootstead {

class FieldList {
 public:
  explicit FieldList(UnitSystem units) : amount_{units} {}

  void text(const char* field, const std::string& before, const std::string& after) {
    if (before != after) changes_.push_back({field, before, after});
  }
  void yes(const char* field, bool before, bool after) {
    if (before != after) changes_.push_back({field, word(before), word(after)});
  }
  template <class Word>
  void word(const char* field, Word before, Word after) {
    text(field, std::string(to_text(before)), std::string(to_text(after)));
  }
  void length(const char* field, const std::optional<EnteredLength>& before,
              const std::optional<EnteredLength>& after);
  void number(const char* field, const std::optional<double>& before,
              const std::optional<double>& after, const char* unit);

  std::vector<FieldChange> take() { return std::exchange(changes_, {}); }

 private:
  static std::string word(bool said) { return said ? "yes" : "no"; }
  AmountText amount_;
  std::vector<FieldChange> changes_;
};

// One work, tree ... in both states; the list of fields that differ.
std::vector<FieldChange> fields_of(const Work& before, const Work& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Tree& before, const Tree& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Barrier& before, const Barrier& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Surface& before, const Surface& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Evidence& before, const Evidence& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Gate& before, const Gate& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Soil& before, const Soil& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Wind& before, const Wind& after, UnitSystem units);
std::vector<FieldChange> fields_of(const Climate& before, const Climate& after, UnitSystem units);
std::vector<FieldChange> fields_of(const ProjectSettings& before, const ProjectSettings& after,
                                   UnitSystem units);

}  // namespace rootstead
