// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_report.h"

#include "core/files/shop_json.h"
#include "core/library/proof.h"
#include "core/library/recipe_json.h"
#include "core/text/columns.h"
#include "core/text/text.h"

#include <algorithm>

namespace bw {
namespace {

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
    rows.push_back({wordOf(recipeStates, row.state), text::line(row.name), text::line(row.substrate) + " " + text::length(row.plate_m),
                    text::line(joined(row.coatings)) + " " + text::length(row.coat_m), text::line(row.machine), row.savedAt.substr(0, 10),
                    text::line(row.id)});
  }
  const std::string shown = findings.rows.size() < findings.total ? std::to_string(findings.rows.size()) + " of " : "";
  return text::columns(rows) + shown + std::to_string(findings.total) + (findings.total == 1 ? " recipe\n" : " recipes\n");
}

std::string nearestJson(const std::vector<NearRecipe>& nearest) {
  Json rows = Json::array();
  for (const NearRecipe& near : nearest) {
    Json parts = Json::array();
    for (const DistancePart& part : near.parts)
      parts.push_back({{"what", part.what}, {"distance", jsonNumber(part.distance)}, {"words", part.words}});
    Json row = rowJson(near.row);
    row["distance"] = jsonNumber(near.distance);
    row["differences"] = parts;
    rows.push_back(row);
  }
  return jsonText({{"recipes", rows}});
}

std::string nearestTable(const std::vector<NearRecipe>& nearest) {
  std::vector<std::vector<std::string>> rows;
  if (!nearest.empty()) rows.push_back({"distance", "state", "name", "id", "what differs"});
  for (const NearRecipe& near : nearest) {
    std::vector<std::string> differences;
    for (const DistancePart& part : near.parts) differences.push_back(text::line(part.words));
    rows.push_back({text::number(near.distance, 2), wordOf(recipeStates, near.row.state), text::line(near.row.name),
                    text::line(near.row.id), differences.empty() ? "nothing" : joined(differences)});
  }
  return text::columns(rows) + (nearest.empty() ? "no recipes\n" : "");
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
      {"Recipe", text::line(version.name)},
      {"state", wordOf(recipeStates, recipe.state) + (recipe.reason.empty() ? "" : ": " + text::line(recipe.reason))},
      {"version", std::to_string(version.number) + " of " + std::to_string(versions.size()) + ", saved " + version.savedAt + " by " +
                      text::line(version.savedBy.empty() ? "nobody" : version.savedBy)}};
  if (!version.note.empty()) rows.push_back({"note", text::line(version.note)});
  rows.push_back({"part", text::line(version.part.substrate) + ", " + text::length(version.part.thickness_m.likely)});
  for (const Layer& layer : version.coat)
    rows.push_back({"layer", text::line(layer.name + " (" + layer.coating + "), ") + text::length(layer.thickness_m.likely)});
  for (const Machine& machine : version.machines) rows.push_back({"machine", text::line(machine.name.empty() ? machine.id : machine.name)});
  for (const auto& [key, number] : version.predicted.numbers) rows.push_back({"predicted", text::line(key) + " " + spread(number)});
  for (const std::string& message : version.predicted.fails) rows.push_back({"fails", text::line(message)});
  if (version.proof) {
    for (const Trial& trial : version.proof->trials) {
      std::string words = text::line(trial.date + " " + trial.initials + " " + trial.where + " " + trial.note);
      words += ": " + inWords(outcomeOf(trial));
      for (const Reading& reading : trial.readings) words += "; " + text::line(reading.kind) + " " + text::number(reading.value, 3);
      for (const OutsideRange& outside : outsidePrediction(version, trial))
        words += "; " + text::line(outside.reading.kind) + (outside.above ? " is above" : " is below") + " the predicted range";
      rows.push_back({"trial", words});
    }
  }
  for (const std::string& reason : stale) rows.push_back({"stale", text::line(reason)});
  rows.push_back({"id", text::line(recipe.id)});
  return text::columns(rows);
}

std::string carriedJson(const CarriedRecipe& carried, const Assessment& assessment, const std::string& savedAs) {
  Json list = Json::array();
  for (const Carried& one : carried.carried)
    list.push_back({{"quantity", one.quantity}, {"before", one.before}, {"after", one.after}, {"kept", one.kept}, {"why", one.why}});
  Json checks = Json::array();
  for (const VerdictRow& row : assessment.verdict) checks.push_back({{"check", row.check}, {"message", row.message}});
  const Json json{{"name", carried.version.name},
                  {"machine", carried.version.machines.front().id},
                  {"proven", false},
                  {"saved_as", savedAs},
                  {"carried", list},
                  {"plan", writeJson(carried.version.plan)},
                  {"model_version", modelVersion},
                  {"answer", assessment.answer},
                  {"checks", checks}};
  return json.dump(2) + "\n";
}

std::string carriedTable(const CarriedRecipe& carried, const Assessment& assessment, const std::string& savedAs) {
  std::vector<std::vector<std::string>> rows{{"", "before", "after", ""}};
  for (const Carried& one : carried.carried)
    rows.push_back({one.quantity, one.before, one.after, one.kept ? "kept" : "not kept: " + one.why});
  return text::line(carried.version.name) + " on the " + text::line(carried.version.machines.front().name) + ": planned, not proven\n" +
         text::columns(rows) + assessment.answer + "\n" + (savedAs.empty() ? "" : "saved as " + savedAs + "\n");
}

namespace {

const char* originWord(EntryOrigin origin) {
  switch (origin) {
    case EntryOrigin::Own:
      return "own";
    case EntryOrigin::OwnCopy:
      return "own copy";
    case EntryOrigin::Shipped:
      break;
  }
  return "typical";
}

std::vector<LibraryEntry<MachineCard>> ownFirst(std::vector<LibraryEntry<MachineCard>> machines) {
  std::ranges::stable_partition(machines, [](const auto& entry) { return entry.origin != EntryOrigin::Shipped; });
  return machines;
}

/// "site.people" and its value, for everything that stands in the object.
void addRows(const Json& object, const std::string& stem, std::vector<std::vector<std::string>>& rows) {
  for (const auto& [key, value] : object.items()) {
    if (value.is_object())
      addRows(value, stem + key + ".", rows);
    else
      rows.push_back({stem + key, value.is_string() ? text::line(value.get<std::string>()) : value.dump()});
  }
}

}  // namespace

std::string machinesJson(const std::vector<LibraryEntry<MachineCard>>& machines) {
  Json list = Json::array();
  for (const auto& entry : ownFirst(machines)) {
    Machine machine = entry.value.machine;
    list.push_back({{"origin", originWord(entry.origin)}, {"revision", entry.revision}, {"machine", writeJson(machine)}});
  }
  return jsonText({{"machines", list}});
}

std::string machinesTable(const std::vector<LibraryEntry<MachineCard>>& machines) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& entry : ownFirst(machines)) {
    const Machine& machine = entry.value.machine;
    rows.push_back({text::line(machine.id), text::line(machine.name), wordOf(machineKinds, machine.kind),
                    text::number(machine.ratedPower_W, 3) + " W", text::length(machine.spotDiameter_m), originWord(entry.origin)});
  }
  return text::columns(rows);
}

std::string shopJson(const ShopFacts& facts) {
  ShopFacts copy = facts;
  return jsonText({{"shop", writeJson(copy)}});
}

std::string shopTable(const ShopFacts& facts) {
  ShopFacts copy = facts;
  std::vector<std::vector<std::string>> rows;
  addRows(writeJson(copy), "", rows);
  return rows.empty() ? "nothing entered yet\n" : text::columns(rows);
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
  for (const std::string& finding : check.findings) text += text::line(finding) + "\n";
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
  for (const LibraryBackup& backup : backups) rows.push_back({backup.date, megabytes(backup.size_bytes), text::line(backup.path.string())});
  return rows.empty() ? "no backup yet\n" : text::columns(rows);
}

std::string restoredJson(const std::string& library, const std::string& backup, const std::string& aside) {
  return jsonText({{"library", library}, {"restored", backup}, {"aside", aside.empty() ? Json(nullptr) : Json(aside)}});
}

}  // namespace bw
