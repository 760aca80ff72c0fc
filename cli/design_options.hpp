// What route, ease and methods have in common: their prices, places and lengths as given, and how a
// toll is told.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/job.hpp"
#include "engine/routes/appraisal.hpp"
#include "io/json.hpp"

namespace rootstead::cli {

Result<RoutePrices> prices_given(const std::vector<std::string>& given, const Tables& tables);
Result<Point> point_from(const std::string& text);  // "480012.5,4880031"
Result<Length> length_given(const std::string& text, const std::string& option);
// Ids of works or surfaces, `boundary`, or files of outlines.
Result<MultiPolygon> ground_named(const std::vector<std::string>& names, const Site& site);
// The project's seed with few draws.
RootSimulation trial_of(const ProjectSettings& settings, std::optional<int> draws);

std::string money_text(double money);  // "12,340"
double sum_of(const Appraisal& appraisal, double TreeToll::*what);
std::string toll_table(const Appraisal& appraisal, const Site& site);
std::string prices_text(const RoutePrices& prices);
io::Json appraisal_json(const Appraisal& appraisal);
io::Json prices_json(const RoutePrices& prices);
io::Json notes_json(const std::vector<Note>& notes);

extern const char* const kDesignCaution;

}  // namespace rootstead::cli
