// Header words by which fields are recognised, in English, German, French, Spanish and Dutch, in
// the plain form of plain_words(). Private to the proposal of column maps.
#pragma once

#include <span>
#include <string_view>

#include "io/import_fields.hpp"

namespace rootstead::io {

struct Heading {
  Field field;
  std::string_view words;  // alternatives, separated by bars
};

// Of openings with the roots found in them, and of layers of the soil.
std::span<const Heading> evidence_headings();
std::span<const Heading> soil_headings();

}  // namespace rootstead::io
