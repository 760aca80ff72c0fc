// Surveyors' words in several languages, compared without their accents.
#pragma once

#include <string>
#include <string_view>

namespace rootstead {

// The UTF-8 text with the accented letters of West European languages as plain lower-case ones:
// "Böschung" -> "Boschung", "fosse" and "fossé" alike, "ß" as "ss". Other letters stay.
std::string without_accents(std::string_view text);

}  // namespace rootstead
