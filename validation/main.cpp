// validate DOCS: writes DOCS/validation.md and DOCS/pictures/validation/*.svg.
// validate --check [--partial] DOCS: writes nothing; fails where the page or a picture differs from
// what is computed now, or where too few targets are hit.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include "validation/markdown.hpp"
#include "validation/shipped.hpp"
#include "validation/target.hpp"

namespace rootstead::validation {
namespace {

// One line an area; targets and plots appear on the page in this order.
const std::vector<Area> kAreas = {
    {"Fine roots: how far, how dense, how deep, how much", root_findings},
    {"Thick roots, and the roots of palms", thick_root_findings},
    {"Anchorage: what holds a tree, what cuts take, what the wind does", anchorage_findings},
};

using Files = std::map<std::filesystem::path, std::string>;

Files files_of(const std::vector<FoundArea>& areas, const std::filesystem::path& docs) {
  Files files = {{docs / "validation.md", page_of(areas, shipped())}};
  for (const FoundArea& area : areas)
    for (const Plot& plot : area.findings.plots)
      files[docs / "pictures" / "validation" / plot.file] = plot.svg;
  return files;
}

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

bool write(const Files& files) {
  for (const auto& [path, bytes] : files) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file << bytes;
    if (!file.flush()) {
      std::cerr << "validate: " << path.string() << " cannot be written; check the folder\n";
      return false;
    }
  }
  return true;
}

std::vector<std::string> differences(const Files& files) {
  std::vector<std::string> found;
  for (const auto& [path, bytes] : files)
    if (bytes_of(path) != bytes)
      found.push_back(path.string() + " is not what is computed now; run ./dev validate");
  return found;
}

int run(const std::filesystem::path& docs, bool check, bool partial) {
  std::vector<FoundArea> areas;
  for (const Area& area : kAreas) areas.push_back({area.title, area.find()});
  const Files files = files_of(areas, docs);
  if (!check && !write(files)) return 3;

  std::vector<std::string> faults = shortcomings(areas, shipped(), partial || !check);
  if (check)
    for (std::string& difference : differences(files)) faults.push_back(std::move(difference));
  for (const Requirement& requirement : kRequirements) {
    const Tally found = tally(areas, requirement);
    std::cout << requirement.name << ": " << found.hits << " hit, " << found.misses << " missed, "
              << found.absent.size() << " not computed\n";
  }
  for (const std::string& fault : faults) std::cerr << "validate: " << fault << '\n';
  return faults.empty() ? 0 : 1;
}

}  // namespace
}  // namespace rootstead::validation

int main(int count, char** words) {
  bool check = false, partial = false, understood = true;
  std::filesystem::path docs;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    if (word == "--check")
      check = true;
    else if (word == "--partial")
      partial = true;
    else if (docs.empty() && !word.starts_with("-"))
      docs = word;
    else
      understood = false;
  }
  if (!understood || docs.empty()) {
    std::cerr << "validate: give the folder of the documents, e.g. `validate --check docs`\n";
    return 2;
  }
  return rootstead::validation::run(docs, check, partial);
}
