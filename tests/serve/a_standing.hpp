// Sites as a desk holds them, made without a project, and answers checked against the contract.
#pragma once

#include <gtest/gtest.h>

#include <memory>

#include "io/json.hpp"
#include "serve/standing.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/schema_check.hpp"
#include "tests/support/shared_data.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead::test {

// Two trees that thicken beside a trench, a palm, paving, a wall, and a trench that stands already.
inline SiteBuilder street() {
  SiteBuilder builder;
  builder.rules({"bs5837-2012"})
      .tree("T1", {0, 0}, 0.5)
      .tree("T2", {14, 1}, 0.4)
      .palm("P1", {7, 3})
      .trench("W1", {{-20, -3}, {20, -3}}, 0.6, 0.9)
      .with_work([](Work& work) {
        work.name = "drain";
        work.working_room = metres(0.8);
      })
      .paving("W2", rectangle(-5, 3, 5, 6))
      .trench("W0", {{-20, -9}, {20, -9}}, 0.6, 0.9)
      .with_work([](Work& work) { work.state = WorkState::existing; })
      .building("B1", rectangle(-4, 8, 4, 12));
  return builder;
}

inline std::shared_ptr<const serve::Standing> standing_of(const Site& site, int draws = 100) {
  AssessOptions options;
  options.simulation.draws = draws;
  auto assessment = assess(site, loaded_tables(), options);
  EXPECT_TRUE(assessment.ok());
  std::set<std::string> own;
  for (const Work& work : site.works) own.insert(work.id);
  return std::make_shared<serve::Standing>("v1", site, *assessment, own, loaded_tables());
}

// The street as it is, assessed once for all tests that change nothing.
inline std::shared_ptr<const serve::Standing> street_standing() {
  static const std::shared_ptr<const serve::Standing> standing = standing_of(street());
  return standing;
}

// Empty where the answer is as api/schema.json has it; else the faults, one a line.
inline std::string faults(const std::string& path, const io::Json& answer,
                          const std::string& method = "get") {
  static const SchemaCheck schema =
      SchemaCheck::of_file((source_dir() / "api/schema.json").string());
  std::string lines;
  for (const std::string& fault : schema.of_answer(path, method, answer)) lines += fault + '\n';
  return lines;
}

}  // namespace rootstead::test
