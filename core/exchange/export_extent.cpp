// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/base64.h"
#include "core/exchange/bundle_file.h"
#include "core/exchange/export.h"
#include "core/files/json_io.h"
#include "core/library/entry_id.h"

#include <algorithm>
#include <set>

namespace bw {
namespace {

template <class T>
std::size_t countEntries(const std::vector<LibraryEntry<T>>& entries, const std::vector<std::string>& chosen, bool all) {
  const std::set<std::string> wanted(chosen.begin(), chosen.end());
  return static_cast<std::size_t>(std::ranges::count_if(entries, [&](const LibraryEntry<T>& entry) {
    return (all && entry.origin != EntryOrigin::Shipped) || wanted.contains(idOf(entry.value));
  }));
}

std::vector<std::string> recipesOf(LibraryStore& store, const ExportChoice& choice) {
  std::vector<std::string> ids = store.recipeIds();
  if (choice.all) return ids;
  const std::set<std::string> wanted(choice.recipes.begin(), choice.recipes.end());
  std::erase_if(ids, [&](const std::string& id) { return !wanted.contains(id); });
  return ids;
}

/// Counts attachments as they lie in the folder.
class Attachments {
 public:
  Attachments(const LibraryStore& store, ExportExtent& extent) : m_store(store), m_extent(extent) {}

  void add(const RecipeVersion& version) {
    if (!version.proof) return;
    for (const Attachment& attachment : version.proof->attachments) {
      if (m_seen.insert(attachment.sha256).second) add(attachment.sha256);
    }
  }
  std::uintmax_t encoded_bytes() const { return m_encoded_bytes; }

 private:
  void add(const std::string& sha256) {
    try {
      const std::uintmax_t size = std::filesystem::file_size(m_store.attachmentPath(sha256));
      if (size > largestBundledFile_bytes) return;
      ++m_extent.attachments;
      m_extent.attachments_bytes += size;
      m_encoded_bytes += base64Length(static_cast<std::size_t>(size));
    } catch (const LibraryError&) {  // what is not there stays behind, as the export will say
    } catch (const std::filesystem::filesystem_error&) {
    }
  }

  const LibraryStore& m_store;
  ExportExtent& m_extent;
  std::set<std::string> m_seen;
  std::uintmax_t m_encoded_bytes = 0;
};

}  // namespace

ExportExtent extentOf(LibraryStore& store, const ExportChoice& choice) {
  ExportExtent extent;
  extent.materials =
      countEntries(store.substrates(), choice.substrates, choice.all) + countEntries(store.coatings(), choice.coatings, choice.all);
  extent.machines = countEntries(store.machines(), choice.machines, choice.all);
  const std::vector<std::string> recipes = recipesOf(store, choice);
  extent.recipes = recipes.size();
  if (recipes.size() > longestList) {
    extent.problem = std::to_string(recipes.size()) + " recipes are more than one bundle holds; up to " + std::to_string(longestList) +
                     " are accepted: export them in several.";
    return extent;  // looking through all of them would take long
  }
  Attachments attachments(store, extent);
  for (const std::string& id : recipes) {
    for (const RecipeVersion& version : store.versions(id)) attachments.add(version);
  }
  if (extent.attachments > longestList) {
    extent.attachmentsProblem = "There are more than the " + std::to_string(longestList) + " that one bundle holds.";
  } else if (attachments.encoded_bytes() > largestBundle_bytes) {
    extent.attachmentsProblem = "They would make it " + tooLargeBundle(attachments.encoded_bytes()) + ".";
  }
  return extent;
}

}  // namespace bw
