// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/library_file.h"

#include "core/files/library_json.h"
#include "core/files/project_file.h"

namespace bw {

extern const std::string_view shippedSubstrates;  // resources/materials, embedded by the build
extern const std::string_view shippedCoatings;

namespace {

void noIdTwice(const auto& entries, const std::string& path, Problems& problems) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (!seen.insert(entries[i].id).second) {
      problems.add(elementPath(path, i) + ".id", "\"" + entries[i].id + "\" stands twice; each id once is accepted");
    }
  }
}

void readPart(std::string_view text, const std::string& which, LibraryFile& file) {
  Problems problems;
  const Json json = parseJson(text, problems);
  if (problems.empty()) readJson(json, "$", file, problems);
  noIdTwice(file.library.substrates, "$.substrates", problems);
  noIdTwice(file.library.coatings, "$.coatings", problems);
  if (problems.empty()) return;
  const Problem& first = problems.list().front();
  throw FileError("library of " + which + ": " + first.path + ": " + first.message);
}

}  // namespace

Library readLibrary(std::string_view substrates, std::string_view coatings) {
  LibraryFile file;
  readPart(substrates, "substrates", file);
  readPart(coatings, "coatings", file);
  return file.library;
}

const Library& shippedLibrary() {
  static const Library library = readLibrary(shippedSubstrates, shippedCoatings);
  return library;
}

}  // namespace bw
