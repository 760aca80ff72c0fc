// A file that the page sent, read as `rootstead add` reads it, and what the page is told of it
// before and after it is added (api/schema.json).
#pragma once

#include "io/import.hpp"
#include "serve/sent_file.hpp"
#include "serve/snapshot.hpp"

namespace rootstead::serve {

struct ImportAsked {
  SentFile file;
  io::ImportOptions options;  // `taken` as the site has them
};

// Fails with wrong_use, unit_unknown or file_unwritable.
Result<ImportAsked> import_asked(const io::Json& body, const Snapshot& snapshot);

// What would be added. Where something must be answered first, nothing but that question and what
// helps to answer it. Fails as io::read_source() does where no answer would help.
Result<io::Json> import_preview(const ImportAsked& asked, const Snapshot& snapshot);

// Fails as io::read_source() does, and with value_invalid where there is nothing of use in it.
Result<io::Import> read_import(const ImportAsked& asked, const Snapshot& snapshot);

// What was read, and what is doubtful of it, one sentence each.
io::Json told_of(const io::Import& import);

// An optional unit of length in a request; none where the key is missing or empty. Fails with
// wrong_use or unit_unknown.
Result<std::optional<LengthUnit>> unit_of(const io::Json& body, const char* key);

}  // namespace rootstead::serve
