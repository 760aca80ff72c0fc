#include "io/toml_guard.hpp"

namespace rootstead::io {
namespace {

class Guard {
 public:
  explicit Guard(std::string_view text) : text_(text) {
    constexpr std::string_view kUtf8Mark = "\xEF\xBB\xBF";
    if (text_.starts_with(kUtf8Mark)) at_ = kUtf8Mark.size();
  }

  enum class Trouble { none, section, foreign };

  Trouble look() {
    bool line_start = true;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '"' || c == '\'') {
        pass_text(c);
        line_start = false;
      } else if (c == '#') {
        while (at_ < text_.size() && text_[at_] != '\n') ++at_;
      } else if (static_cast<signed char>(c) < 0) {
        return Trouble::foreign;
      } else if (line_start && c == '[' && !section_starts_well()) {
        return Trouble::section;
      } else {
        line_start = c == '\n' || (line_start && is_blank(c));
        count(c);
        ++at_;
      }
    }
    return Trouble::none;
  }

  std::size_t line() const { return line_; }

 private:
  static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }
  void count(char c) {
    if (c == '\n') ++line_;
  }

  bool section_starts_well() const {
    constexpr std::string_view kStarts =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-\"']";
    std::size_t at = at_ + 1;
    const auto pass_blanks = [&] {
      while (at < text_.size() && is_blank(text_[at])) ++at;
    };
    pass_blanks();
    if (at < text_.size() && text_[at] == '[') ++at;
    pass_blanks();
    const bool foreign = at < text_.size() && static_cast<signed char>(text_[at]) < 0;
    return at >= text_.size() || foreign || kStarts.find(text_[at]) != std::string_view::npos;
  }

  // A text in single or tripled marks; one line ends it where single marks do not close.
  void pass_text(char mark) {
    const std::string three(3, mark);
    const bool many_lines = text_.substr(at_).starts_with(three);
    const std::string end = many_lines ? three : std::string(1, mark);
    at_ += end.size();
    while (at_ < text_.size()) {
      if (text_.substr(at_).starts_with(end)) {
        at_ += end.size();
        return;
      }
      const char c = text_[at_];
      if (c == '\n' && !many_lines) return;
      count(c);
      const bool escape = c == '\\' && mark == '"' && at_ + 1 < text_.size();
      at_ += escape && text_[at_ + 1] != '\n' ? 2u : 1u;
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
};

}  // namespace

std::optional<Error> unfit_for_toml(std::string_view toml, const std::string& file_name) {
  Guard guard(toml);
  const Guard::Trouble trouble = guard.look();
  if (trouble == Guard::Trouble::none) return std::nullopt;
  const std::string subject = file_name + " line " + std::to_string(guard.line());
  if (trouble == Guard::Trouble::section)
    return Error{Code::format_broken, subject, "the name of the section is no name",
                 "start it with a letter, as in [columns]"};
  return Error{Code::format_broken, subject, "a letter beyond a to z stands outside a text",
               "put the name or text in quotation marks"};
}

}  // namespace rootstead::io
