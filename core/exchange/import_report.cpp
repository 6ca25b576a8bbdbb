// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/import_report.h"

#include "core/files/json_io.h"
#include "core/text/columns.h"

namespace bw {
namespace {

const char* wordOf(BundlePart part) {
  switch (part) {
    case BundlePart::Substrate:
      return "substrate";
    case BundlePart::Coating:
      return "coating";
    case BundlePart::Machine:
      return "machine";
    case BundlePart::Recipe:
      return "recipe";
  }
  return "";
}

const char* wordOf(ImportStatus status) {
  switch (status) {
    case ImportStatus::New:
      return "new";
    case ImportStatus::Identical:
      return "identical";
    case ImportStatus::Continues:
      return "continues";
    case ImportStatus::Conflict:
      return "conflict";
  }
  return "";
}

constexpr ImportStatus statuses[] = {ImportStatus::New, ImportStatus::Identical, ImportStatus::Continues, ImportStatus::Conflict};

/// What differs, in two columns under the entry's line.
std::string sides(const ImportLine& line) {
  std::vector<std::vector<std::string>> rows{{"   ", "", "yours", "theirs"}, {"   ", "", text::line(line.mine), text::line(line.theirs)}};
  for (const Difference& difference : line.differences) {
    rows.push_back({"   ", text::line(wordsOfKey(difference.key).words), text::line(shownValue(difference.key, difference.was)),
                    text::line(shownValue(difference.key, difference.is))});
  }
  return text::columns(rows);
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string outcomeInWords(const ImportOutcome& outcome) {
  return "Imported: " + counted(outcome.recipes, "recipe", "recipes") + ", " + counted(outcome.versions, "version", "versions") +
         " of recipes that were there, " + counted(outcome.states, "state", "states") + ", " +
         counted(outcome.materials, "material", "materials") + ", " + counted(outcome.machines, "machine", "machines") + ", " +
         counted(outcome.attachments, "attachment", "attachments") + ". " + counted(outcome.untouched, "entry", "entries") +
         " of the bundle changed nothing.\n";
}

Json lineJson(const ImportLine& line) {
  Json differences = Json::array();
  for (const Difference& difference : line.differences) {
    differences.push_back({{"key", difference.key},
                           {"place", wordsOfKey(difference.key).words},
                           {"mine", shownValue(difference.key, difference.was)},
                           {"theirs", shownValue(difference.key, difference.is)}});
  }
  return {{"part", wordOf(line.part)}, {"id", line.id},         {"name", line.name},         {"status", wordOf(line.status)},
          {"mine", line.mine},         {"theirs", line.theirs}, {"differences", differences}};
}

Json outcomeJson(const ImportOutcome& outcome) {
  return {{"recipes", outcome.recipes},     {"versions", outcome.versions}, {"states", outcome.states},
          {"materials", outcome.materials}, {"machines", outcome.machines}, {"attachments", outcome.attachments},
          {"untouched", outcome.untouched}};
}

}  // namespace

std::string importTable(const ImportPlan& plan, const std::optional<ImportOutcome>& outcome) {
  std::string text;
  for (const ImportLine& line : plan.lines) {
    if (line.status == ImportStatus::Identical) continue;
    text += text::line(std::string(wordOf(line.status)) + "  " + wordOf(line.part) + "  " + line.name + "  " + line.id) + "\n";
    if (!line.differences.empty()) text += sides(line);
  }
  for (const ImportStatus status : statuses)
    text += std::to_string(plan.count(status)) + " " + wordOf(status) + (status == ImportStatus::Conflict ? "\n" : ", ");
  for (const std::string& notice : plan.notices) text += text::line(notice) + "\n";
  return text + (outcome ? outcomeInWords(*outcome) : "Nothing was changed.\n");
}

std::string importJson(const ImportPlan& plan, const std::optional<ImportOutcome>& outcome) {
  Json entries = Json::array(), counts = Json::object();
  for (const ImportLine& line : plan.lines) entries.push_back(lineJson(line));
  for (const ImportStatus status : statuses) counts[wordOf(status)] = plan.count(status);
  Json json{{"counts", counts}, {"entries", entries}, {"notices", plan.notices}};
  json["imported"] = outcome ? outcomeJson(*outcome) : Json(nullptr);
  return jsonText(json);
}

std::string exportTable(const ExportResult& result, const std::string& where) {
  const Bundle& bundle = result.bundle;
  std::string text = text::line(where) + ": " + counted(bundle.recipes.size(), "recipe", "recipes") + ", " +
                     counted(bundle.substrates.size() + bundle.coatings.size(), "material", "materials") + ", " +
                     counted(bundle.machines.size(), "machine", "machines") + ", " +
                     counted(bundle.files.size(), "attachment", "attachments") + "\n";
  for (const std::string& notice : result.notices) text += text::line(notice) + "\n";
  return text;
}

std::string exportJson(const ExportResult& result, const std::string& where) {
  const Bundle& bundle = result.bundle;
  return jsonText({{"bundle", where},
                   {"recipes", bundle.recipes.size()},
                   {"substrates", bundle.substrates.size()},
                   {"coatings", bundle.coatings.size()},
                   {"machines", bundle.machines.size()},
                   {"attachments", bundle.files.size()},
                   {"notices", result.notices}});
}

}  // namespace bw
