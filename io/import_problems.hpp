// Collects what a reader has to say about a source, by row. Private to the readers.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "engine/site/site.hpp"

namespace rootstead::io {

// The text on one line: cells and headers of a source may hold line breaks, our sentences may not.
std::string on_one_line(std::string text);

class ProblemLog {
 public:
  explicit ProblemLog(std::string file) : file_(std::move(file)) {}

  const std::string& file() const { return file_; }
  std::string at(const std::string& place) const {
    return place.empty() ? file_ : file_ + " " + place;
  }

  void add(NoteCode code, const std::string& place, std::string message, std::string remedy) {
    keep(false, code, place, std::move(message), std::move(remedy));
  }
  void add_blocking(NoteCode code, const std::string& place, std::string message,
                    std::string remedy) {
    keep(true, code, place, std::move(message), std::move(remedy));
  }

  // The same remark about many rows is one problem that names the first row and counts the rest.
  void add_repeated(NoteCode code, const std::string& place, const std::string& message,
                    const std::string& remedy);

  std::vector<Problem> take();

 private:
  void keep(bool blocks, NoteCode code, const std::string& place, std::string message,
            std::string remedy) {
    problems_.push_back({blocks, code, on_one_line(at(place)), on_one_line(std::move(message)),
                         on_one_line(std::move(remedy))});
  }
  struct Repeated {
    std::string first_place;
    std::string remedy;
    std::size_t count = 0;
  };
  std::string file_;
  std::vector<Problem> problems_;
  std::map<std::pair<NoteCode, std::string>, Repeated> repeated_;
};

}  // namespace rootstead::io
