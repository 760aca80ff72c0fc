#include "engine/aftercare/calendar.hpp"

#include <cstdint>
#include <cstdio>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kLongestLine = 75;  // octets, the line break apart
constexpr std::string_view kBreak = "\r\n";

bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;  // UTF-8
}

std::string date_text(std::chrono::sys_days day) {
  const std::chrono::year_month_day date(day);
  char text[16];
  std::snprintf(text, sizeof text, "%04d%02u%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text;
}

// FNV-1a, 64 bits: the same project has the same number on every machine.
std::string fingerprint(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  char digits[17];
  std::snprintf(digits, sizeof digits, "%016llx", static_cast<unsigned long long>(hash));
  return digits;
}

class Calendar {
 public:
  Calendar(const Site& site, const CalendarIdentity& identity) : site_(site), identity_(identity) {
    line("BEGIN:VCALENDAR");
    line("VERSION:2.0");
    line("PRODID:-//Rootstead//Monitoring plan//EN");
    line("CALSCALE:GREGORIAN");
  }

  void add(const Visit& visit) {
    const char* const component = visit.day ? "VEVENT" : "VTODO";
    line(std::string("BEGIN:") + component);
    line("UID:" + fingerprint(identity_.project + "\n" + visit.id) + "@rootstead");
    line("DTSTAMP:" + date_text(identity_.made) + "T000000Z");
    if (visit.day) add_day(*visit.day);
    line("SUMMARY:" + calendar_text(title_of(visit)));
    line("DESCRIPTION:" + calendar_text(description_of(visit)));
    if (!site_.settings.address.empty()) line("LOCATION:" + calendar_text(site_.settings.address));
    line("CATEGORIES:" + calendar_text(to_text(visit.kind)));
    line(std::string("END:") + component);
  }

  std::string finished() && {
    line("END:VCALENDAR");
    return std::move(text_);
  }

 private:
  void line(const std::string& content) { text_ += folded_line(content); }

  // A whole day ends where the next begins.
  void add_day(std::chrono::sys_days day) {
    line("DTSTART;VALUE=DATE:" + date_text(day));
    line("DTEND;VALUE=DATE:" + date_text(day + std::chrono::days(1)));
    line("TRANSP:TRANSPARENT");
  }

  std::string title_of(const Visit& visit) const {
    const std::string demo = site_.settings.demo ? "Invented example: " : "";
    const std::string& title = site_.settings.title;
    return demo + (title.empty() ? "Trees" : title) + ": " + visit.title;
  }

  std::string label_of(const std::string& id) const {
    const Tree* tree = site_.tree(id);
    return tree == nullptr ? id : tree->label();
  }

  std::string description_of(const Visit& visit) const {
    std::vector<std::string> lines;
    if (!visit.event.empty()) lines.push_back("When: " + visit.event + ".");
    for (const TreeVisit& one : visit.trees)
      lines.push_back("Tree " + label_of(one.tree) + ": " + one.reason + ".");
    for (const std::string& look : visit.look_at) lines.push_back("Look at: " + look + ".");
    for (const std::string& act : visit.act_if) lines.push_back("Act if: " + act + ".");
    lines.push_back("Source: " + cited(visit.from) + ".");
    lines.push_back("Local law and the permit prevail; a qualified arborist decides on site.");
    return joined(lines, "\n");
  }

  const Site& site_;
  const CalendarIdentity& identity_;
  std::string text_;
};

}  // namespace

std::string calendar_text(std::string_view text) {
  std::string escaped;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
    if (c == '\n' || c == '\r') {
      escaped += "\\n";
    } else if (c == '\\' || c == ';' || c == ',') {
      escaped += '\\';
      escaped += c;
    } else {
      const auto code = static_cast<unsigned char>(c);
      escaped += (code < 0x20 && c != '\t') || code == 0x7F ? ' ' : c;  // no control characters
    }
  }
  return escaped;
}

std::string folded_line(std::string_view line) {
  std::string folded;
  std::size_t room = kLongestLine;
  while (line.size() > room) {
    std::size_t cut = room;
    while (cut > 1 && continues_character(line[cut])) --cut;
    // Bytes that are no UTF-8 are cut where the room ends.
    if (continues_character(line[cut])) cut = room;
    folded += std::string(line.substr(0, cut)) + std::string(kBreak) + " ";
    line.remove_prefix(cut);
    room = kLongestLine - 1;  // the blank counts
  }
  return folded + std::string(line) + std::string(kBreak);
}

std::string unfolded_lines(std::string_view folded) {
  std::string text;
  for (std::size_t i = 0; i < folded.size(); ++i) {
    const std::string_view rest = folded.substr(i);
    if (rest.starts_with("\r\n ") || rest.starts_with("\r\n\t"))
      i += 2;
    else
      text += folded[i];
  }
  return text;
}

std::string calendar_of(const MonitoringPlan& plan, const Site& site,
                        const CalendarIdentity& identity) {
  Calendar calendar(site, identity);
  for (const Visit& visit : plan.visits) calendar.add(visit);
  return std::move(calendar).finished();
}

}  // namespace rootstead
