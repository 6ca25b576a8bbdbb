// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/bundle_file.h"

#include "core/exchange/bundle_check.h"
#include "core/exchange/bundle_json.h"

namespace bw {
namespace {

constexpr ParseLimits limits{mostBundleValues, false, "export fewer recipes into one bundle"};

/// Objects and lists count as one each, as they do when a text is read.
std::size_t countValues(const Json& json) {
  std::size_t count = 1;
  if (json.is_structured()) {
    for (const Json& member : json) count += countValues(member);
  }
  return count;
}

}  // namespace

std::string tooLargeBundle(std::uintmax_t size_bytes) {
  return "a bundle of " + std::to_string(size_bytes >> 20) + " MB; up to " + std::to_string(largestBundle_bytes >> 20) +
         " MB is accepted: export fewer recipes into one, or leave the attachments out";
}

BundleReadResult readBundle(std::string_view text) {
  BundleReadResult result;
  Problems problems;
  if (text.size() > largestBundle_bytes) problems.add("$", tooLargeBundle(text.size()));
  Json json;
  if (problems.empty()) json = parseJson(text, problems, limits);
  if (problems.empty()) readJson(json, "$", result.bundle, problems);
  json = nullptr;  // attachments stand in it a second time
  if (problems.empty()) checkBundle(result.bundle, problems);
  result.problems = problems.list();
  return result;
}

std::string writeBundle(const Bundle& bundle) {
  const auto refuse = [](const std::string& why) { throw FileError("the bundle: " + why); };
  const std::size_t most = longestList;
  if (bundle.recipes.size() > most || bundle.files.size() > most) {
    refuse("holds " + std::to_string(bundle.recipes.size()) + " recipes and " + std::to_string(bundle.files.size()) +
           " attachments; up to " + std::to_string(most) + " of each are accepted: export them in several bundles");
  }
  const Json json = writeJson(bundle);
  if (countValues(json) > mostBundleValues) {
    refuse("holds more than " + std::to_string(mostBundleValues) + " values; " + limits.advice);
  }
  std::string text = jsonText(json);
  if (text.size() > largestBundle_bytes) refuse(tooLargeBundle(text.size()));
  return text;
}

}  // namespace bw
