// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_report.h"

#include "core/library/recipe_json.h"
#include "core/text/text.h"

#include <algorithm>

namespace bw {
namespace {

template <class E>
std::string wordOf(const Words<E>& words, E value) {
  for (const auto& [meaning, word] : words.words) {
    if (meaning == value) return word;
  }
  return {};
}

Json rowJson(const RecipeRow& row) {
  return {{"id", row.id},
          {"version", row.version},
          {"name", row.name},
          {"note", row.note},
          {"state", wordOf(recipeStates, row.state)},
          {"reason", row.reason},
          {"substrate", row.substrate},
          {"thickness_mm", jsonNumber(units::mm.fromSi(row.plate_m))},
          {"coatings", row.coatings},
          {"coat_um", jsonNumber(units::um.fromSi(row.coat_m))},
          {"machine", row.machine},
          {"machine_kind", wordOf(machineKinds, row.machineKind)},
          {"finish", wordOf(finishes, row.finish)},
          {"saved_at", row.savedAt},
          {"saved_by", row.savedBy},
          {"has_proof", row.hasProof}};
}

Json countsJson(const std::vector<FacetCount>& counts) {
  Json list = Json::array();
  for (const FacetCount& count : counts) list.push_back({{"value", count.value}, {"count", count.count}});
  return list;
}

/// One line whatever the text holds.
std::string line(std::string text) {
  std::ranges::replace_if(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }, ' ');
  return text;
}

/// Letters as seen, not bytes.
std::size_t widthOf(const std::string& text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

/// Columns as wide as their widest text.
std::string table(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], widthOf(row[i]));
  }
  std::string text;
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      text += row[i] + (i + 1 < row.size() ? std::string(widths[i] - widthOf(row[i]) + 2, ' ') : "\n");
    }
  }
  return text;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string megabytes(std::uintmax_t bytes) { return text::number(static_cast<double>(bytes) / 1e6) + " MB"; }

std::string spread(const PredictedNumber& number) {
  std::string words = number.likely ? text::number(*number.likely) : "not known";
  if (number.low || number.high) {
    words += " (" + (number.low ? text::number(*number.low) : "not known") + " to " +
             (number.high ? text::number(*number.high) : "not known") + ")";
  }
  return words;
}

}  // namespace

std::string findingsJson(const RecipeFindings& findings) {
  Json rows = Json::array();
  for (const RecipeRow& row : findings.rows) rows.push_back(rowJson(row));
  return jsonText({{"total", findings.total},
                   {"recipes", rows},
                   {"facets",
                    {{"substrate", countsJson(findings.facets.substrates)},
                     {"coating", countsJson(findings.facets.coatings)},
                     {"machine_kind", countsJson(findings.facets.machineKinds)},
                     {"finish", countsJson(findings.facets.finishes)},
                     {"state", countsJson(findings.facets.states)}}}});
}

std::string findingsTable(const RecipeFindings& findings) {
  std::vector<std::vector<std::string>> rows;
  if (!findings.rows.empty()) rows.push_back({"state", "name", "on", "coat", "machine", "saved", "id"});
  for (const RecipeRow& row : findings.rows) {
    rows.push_back({wordOf(recipeStates, row.state), line(row.name), line(row.substrate) + " " + text::length(row.plate_m),
                    line(joined(row.coatings)) + " " + text::length(row.coat_m), line(row.machine), row.savedAt.substr(0, 10),
                    line(row.id)});
  }
  const std::string shown = findings.rows.size() < findings.total ? std::to_string(findings.rows.size()) + " of " : "";
  return table(rows) + shown + std::to_string(findings.total) + (findings.total == 1 ? " recipe\n" : " recipes\n");
}

std::string recipeJson(const Recipe& recipe, const std::vector<RecipeVersion>& versions, const std::vector<std::string>& stale) {
  Json json = writeJson(recipe);
  json["stale"] = stale;
  Json list = Json::array();
  for (const RecipeVersion& version : versions) {
    list.push_back({{"number", version.number}, {"saved_at", version.savedAt}, {"saved_by", version.savedBy}, {"name", version.name}});
  }
  json["versions"] = list;
  return jsonText(json);
}

std::string recipeTable(const Recipe& recipe, const std::vector<RecipeVersion>& versions, const std::vector<std::string>& stale) {
  const RecipeVersion& version = recipe.version;
  std::vector<std::vector<std::string>> rows{
      {"Recipe", line(version.name)},
      {"state", wordOf(recipeStates, recipe.state) + (recipe.reason.empty() ? "" : ": " + line(recipe.reason))},
      {"version", std::to_string(version.number) + " of " + std::to_string(versions.size()) + ", saved " + version.savedAt + " by " +
                      line(version.savedBy.empty() ? "nobody" : version.savedBy)}};
  if (!version.note.empty()) rows.push_back({"note", line(version.note)});
  rows.push_back({"part", line(version.part.substrate) + ", " + text::length(version.part.thickness_m.likely)});
  for (const Layer& layer : version.coat)
    rows.push_back({"layer", line(layer.name + " (" + layer.coating + "), ") + text::length(layer.thickness_m.likely)});
  for (const Machine& machine : version.machines) rows.push_back({"machine", line(machine.name.empty() ? machine.id : machine.name)});
  for (const auto& [key, number] : version.predicted.numbers) rows.push_back({"predicted", line(key) + " " + spread(number)});
  for (const std::string& message : version.predicted.fails) rows.push_back({"fails", line(message)});
  if (version.proof) {
    for (const Trial& trial : version.proof->trials) {
      std::string words = line(trial.date + " " + trial.initials + " " + trial.where + " " + trial.note);
      for (const Reading& reading : trial.readings) words += "; " + line(reading.kind) + " " + text::number(reading.value, 3);
      rows.push_back({"trial", words});
    }
  }
  for (const std::string& reason : stale) rows.push_back({"stale", line(reason)});
  rows.push_back({"id", line(recipe.id)});
  return table(rows);
}

std::string checkJson(const std::string& path, const LibraryCheck& check) {
  return jsonText({{"library", path},
                   {"sound", check.sound()},
                   {"recipes", check.recipes},
                   {"versions", check.versions},
                   {"attachments", check.attachments},
                   {"findings", check.findings}});
}

std::string checkTable(const std::string& path, const LibraryCheck& check) {
  std::string text = path + ": " + std::to_string(check.recipes) + " recipes, " + std::to_string(check.versions) + " versions, " +
                     std::to_string(check.attachments) + " attachments\n";
  for (const std::string& finding : check.findings) text += line(finding) + "\n";
  return check.sound() ? text + "no problem found\n" : text;
}

std::string backupsJson(const std::vector<LibraryBackup>& backups) {
  Json list = Json::array();
  for (const LibraryBackup& backup : backups) {
    list.push_back({{"path", backup.path.string()}, {"sequence", backup.sequence}, {"date", backup.date}, {"bytes", backup.size_bytes}});
  }
  return jsonText({{"backups", list}});
}

std::string backupsTable(const std::vector<LibraryBackup>& backups) {
  std::vector<std::vector<std::string>> rows;
  for (const LibraryBackup& backup : backups) rows.push_back({backup.date, megabytes(backup.size_bytes), line(backup.path.string())});
  return rows.empty() ? "no backup yet\n" : table(rows);
}

std::string restoredJson(const std::string& library, const std::string& backup, const std::string& aside) {
  return jsonText({{"library", library}, {"restored", backup}, {"aside", aside.empty() ? Json(nullptr) : Json(aside)}});
}

}  // namespace bw
