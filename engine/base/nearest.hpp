// The known word nearest to one that is not known.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rootstead {

// The number of letters to insert, delete or change (neighbours swapped count once) to turn one
// word into the other; upper and lower case are alike.
int edit_distance(std::string_view a, std::string_view b);

// The word of `known` with the smallest edit distance; empty where none is near: within a third of
// its letters (at least 2), or holding `word` whole.
std::string nearest(std::string_view word, const std::vector<std::string>& known);

// "perhaps \"girth_times\" is meant", or "known are: a, b, c" where nothing is near.
std::string suggestion(std::string_view word, const std::vector<std::string>& known);

}  // namespace rootstead
