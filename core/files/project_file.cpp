// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/project_file.h"

#include "core/files/file_io.h"
#include "core/files/project_check.h"
#include "core/files/project_json.h"

#include <algorithm>
#include <set>

namespace bw {
namespace {

/// Adds the entry of that id from `from`, or replaces nothing where `to` has it already.
template <class T>
void copyIn(const std::string& id, const std::vector<T>& from, std::vector<T>& to) {
  if (std::ranges::find(to, id, &T::id) != to.end()) return;
  const auto found = std::ranges::find(from, id, &T::id);
  if (found != from.end()) to.push_back(*found);
}

/// Leaves out what the project does not name and the program ships anyway.
template <class T>
void dropUnused(const std::set<std::string>& named, const std::vector<T>& shipped, std::vector<T>& list) {
  const auto ships = [&](const T& entry) { return std::ranges::find(shipped, entry.id, &T::id) != shipped.end(); };
  std::erase_if(list, [&](const T& entry) { return !named.contains(entry.id) && ships(entry); });
}

std::set<std::string> coatingsOf(const Project& project) {
  std::set<std::string> named;
  for (const Layer& layer : project.coat) named.insert(layer.coating);
  for (const Area& area : project.part.areas) {
    for (const Layer& layer : area.coat.value_or(Coat{})) named.insert(layer.coating);
  }
  return named;
}

Library libraryOf(const Project& project, const Library& shipped) {
  Library library = project.library;
  const auto coatings = coatingsOf(project);
  dropUnused(coatings, shipped.coatings, library.coatings);
  dropUnused({project.part.substrate}, shipped.substrates, library.substrates);
  for (const std::string& id : coatings) copyIn(id, shipped.coatings, library.coatings);
  copyIn(project.part.substrate, shipped.substrates, library.substrates);
  return library;
}

}  // namespace

std::string summary(const std::vector<Problem>& problems) {
  const std::string first = problems.front().path + ": " + problems.front().message;
  return problems.size() == 1 ? first : first + " (and " + std::to_string(problems.size() - 1) + " more)";
}

ReadResult readProject(std::string_view text, const Library& shipped) {
  ReadResult result;
  Problems problems;
  const Json json = parseJson(text, problems);
  if (problems.empty()) {
    readJson(json, "$", result.project, problems);
    if (!problems.touches("$.format") && !problems.touches("$.version")) checkProject(result.project, shipped, problems);
  }
  result.problems = problems.list();
  return result;
}

Project openProject(const std::filesystem::path& path, const Library& shipped) {
  ReadResult result = readProject(readWholeFile(path), shipped);
  if (result.problems.empty()) return std::move(result.project);
  throw FileError(shownPath(path) + ": " + summary(result.problems));
}

std::string writeProject(const Project& project, const Library& shipped) {
  Project whole = project;
  whole.library = libraryOf(project, shipped);
  return jsonText(writeJson(std::move(whole)));
}

void saveProject(const Project& project, const std::filesystem::path& path, const Library& shipped) {
  writeFileAtomically(writeProject(project, shipped), path);
}

std::vector<Problem> validate(const Project& project, const Library& shipped) {
  return readProject(writeProject(project, shipped), shipped).problems;
}

}  // namespace bw
