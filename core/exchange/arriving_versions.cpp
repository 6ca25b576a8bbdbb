// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/bundle_json.h"
#include "core/exchange/import_plan.h"

#include <algorithm>

namespace bw {
namespace {

constexpr const char* leftOutKey = "attachments_left_out";

/// Adds to the list of those left out, which may have come that way already.
void noteLeftOut(Proof& proof, const Attachment& attachment) {
  Json list = Json::array();
  if (const auto known = proof.extras.find(leftOutKey); known != proof.extras.end()) {
    const Json before = Json::parse(known->second, nullptr, false);
    if (before.is_array()) list = before;
  }
  list.push_back(writeJson(attachment));
  proof.extras[leftOutKey] = list.dump();
}

}  // namespace

ArrivingVersions::ArrivingVersions(const LibraryStore& store, const Bundle& bundle) : m_store(store), m_whole(bundle) {
  for (const BundledFile& file : bundle.files) m_files.emplace(file.sha256, &file);
}

const BundledFile* ArrivingVersions::file(const std::string& hash) const {
  const auto found = m_files.find(hash);
  return found == m_files.end() ? nullptr : found->second;
}

bool ArrivingVersions::has(const std::string& hash) const {
  if (file(hash)) return true;
  try {
    return !m_store.attachmentPath(hash).empty();
  } catch (const LibraryError& error) {
    if (error.trouble() == LibraryTrouble::Missing) return false;
    throw;
  }
}

RecipeVersion ArrivingVersions::of(const BundledVersion& bundled) const {
  RecipeVersion version = m_whole.of(bundled);
  if (!version.proof) return version;
  Proof& proof = *version.proof;
  std::vector<Attachment> kept;
  for (const Attachment& attachment : proof.attachments) {
    if (has(attachment.sha256))
      kept.push_back(attachment);
    else
      noteLeftOut(proof, attachment);
  }
  proof.attachments = std::move(kept);
  return version;
}

}  // namespace bw
