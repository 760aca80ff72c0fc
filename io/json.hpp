// JSON as printed by --json and told to the page; the shapes are those of docs/formats/json.md.
#pragma once

#include <nlohmann/json.hpp>

#include "engine/advice/told_figure.hpp"
#include "engine/rootstead.hpp"

namespace rootstead::io {

using Json = nlohmann::ordered_json;  // keys in the order of the document

Json to_json(const Figure& figure, const Tables& tables);
Json to_json(const ToldFigure& told, const Tables& tables);  // as `why --json` prints it
Json to_json(const Range& range);
Json to_json(const Assessment& assessment, const Site& site);
Json to_json(const TreeAssessment& tree, const Site& site);  // one of its trees
Json to_json(const Problem& problem);
Json to_json(const ZoneRule& rule, const Tables& tables);

// Two blanks deep, a new line at the end; text that is no UTF-8 is replaced, never thrown at.
std::string written(const Json& json);

}  // namespace rootstead::io
