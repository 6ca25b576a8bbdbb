// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/library_jobs.h"

#include "core/files/library_file.h"
#include "core/library/prediction.h"
#include "core/library/proof.h"

#include <QImageReader>

#include <algorithm>

namespace bw {
namespace {

constexpr QSize thumbnail(320, 240);

/// Scaled while it is read, so that a large photo needs little memory.
QImage readSmall(const QString& file) {
  QImageReader reader(file);
  reader.setAutoTransform(true);
  const QSize size = reader.size();
  if (size.isValid()) reader.setScaledSize(size.scaled(thumbnail, Qt::KeepAspectRatio).expandedTo({1, 1}));
  return reader.read();
}

Photo photoOf(const LibraryStore& store, const Attachment& attachment) {
  Photo photo{attachment, {}, {}};
  try {
    photo.file = QString::fromStdString(store.attachmentPath(attachment.sha256).string());
    photo.small = readSmall(photo.file);
  } catch (const LibraryError&) {  // it is named, and that it is not there shows
  }
  return photo;
}

/// The version on screen must still be the newest, or somebody's work would be lost; saveRecipe sees to that.
Recipe madeFromScreen(LibraryStore& store, const std::string& id, int madeFrom) {
  Recipe recipe = store.recipe(id);
  recipe.version.number = madeFrom;
  return recipe;
}

RecipeVersion versionOf(const OpenPlan& open, const KeptWords& words) {
  RecipeVersion version = recipeFrom(*open.project, open.plan, shippedLibrary());
  version.name = words.name;
  version.note = words.note;
  version.savedBy = words.initials;
  if (open.assessment) version.predicted = predictionOf(*open.assessment);
  if (version.proof) version.proof->modelVersion = std::string(modelVersion);
  return version;
}

Proof& proofOf(RecipeVersion& version) {
  if (version.proof) return *version.proof;
  Proof& proof = version.proof.emplace();
  proof.machines = version.machines;
  proof.modelVersion = std::string(modelVersion);
  return proof;
}

}  // namespace

RecipeVersion withTrials(RecipeVersion version, const Judgement& judgement) {
  Proof& proof = proofOf(version);
  proof.trials = judgement.trials;
  proof.note = judgement.note;
  proof.date = judgement.date;
  proof.initials = judgement.initials;
  proof.modelVersion = std::string(modelVersion);
  proof.machines = version.machines;
  if (isProven(version)) return version;
  proof.date.clear();  // the trials are kept, nobody answers for the recipe
  proof.initials.clear();
  return version;
}

bool isJudged(const std::optional<Proof>& proof) { return proof && !proof->date.empty() && !proof->initials.empty(); }

FoundRecipes findRecipes(LibraryStore& store, const WantedRecipes& wanted) {
  FoundRecipes found;
  if (wanted.nearest) {
    for (NearRecipe& near : store.nearest(*wanted.nearest)) found.recipes.push_back({near.row, near.distance, std::move(near.parts)});
    found.total = found.recipes.size();
    return found;
  }
  RecipeFindings findings = store.find(wanted.query);
  for (RecipeRow& row : findings.rows) found.recipes.push_back({std::move(row), std::nullopt, {}});
  found.skipped = wanted.query.skip;
  found.total = findings.total;
  found.facets = std::move(findings.facets);
  return found;
}

std::map<std::string, RowDetail> rowDetails(LibraryStore& store, const std::vector<std::string>& ids) {
  std::map<std::string, RowDetail> details;
  for (const std::string& id : ids) {
    const std::optional<Recipe> recipe = store.findRecipe(id);
    if (!recipe) continue;
    const RecipeVersion& version = recipe->version;
    const Machine* machine = mainMachine(version);
    const bool stale = recipe->state == RecipeState::Proven && !store.staleReasons(version, modelVersion).empty();
    details[id] = {version.number, QString::fromStdString(machine ? machine->name : std::string()), version.coat, version.materials, stale};
  }
  return details;
}

RecipeDetail recipeDetail(LibraryStore& store, const std::string& id, int version) {
  RecipeDetail detail;
  detail.recipe = store.recipe(id);
  detail.versions = store.versions(id);
  std::ranges::reverse(detail.versions);
  const int wanted = version > 0 ? version : detail.recipe.version.number;
  const auto shown = std::ranges::find(detail.versions, wanted, &RecipeVersion::number);
  detail.shown = shown == detail.versions.end() ? detail.recipe.version : *shown;
  const auto before = std::ranges::find(detail.versions, wanted - 1, &RecipeVersion::number);
  if (before != detail.versions.end()) detail.changed = differences(*before, detail.shown);
  if (isJudged(detail.shown.proof)) detail.stale = store.staleReasons(detail.shown, modelVersion);
  if (detail.shown.proof) {
    for (const Attachment& attachment : detail.shown.proof->attachments) detail.photos.push_back(photoOf(store, attachment));
  }
  return detail;
}

SavedRecipe keepPlan(LibraryStore& store, const OpenPlan& open, const KeptWords& words) {
  Recipe recipe;
  recipe.version = versionOf(open, words);
  return store.saveRecipe(recipe);
}

SavedRecipe keepNewVersion(LibraryStore& store, const std::string& id, int madeFrom, const OpenPlan& open, const KeptWords& words) {
  Recipe recipe = madeFromScreen(store, id, madeFrom);
  recipe.state = RecipeState::Draft;  // nobody tried the new settings yet; the older versions keep their proofs
  recipe.reason.clear();
  recipe.version = versionOf(open, words);
  recipe.version.number = madeFrom;
  return store.saveRecipe(recipe);
}

SavedRecipe keepTrials(LibraryStore& store, const std::string& id, int madeFrom, const Judgement& judgement) {
  Recipe recipe = madeFromScreen(store, id, madeFrom);
  recipe.version = withTrials(recipe.version, judgement);
  for (const KeptFile& file : judgement.files) {
    Attachment attachment = store.attach(*file.content, file.name);
    attachment.note = file.note;
    recipe.version.proof->attachments.push_back(std::move(attachment));
  }
  recipe.version.savedBy = judgement.initials;
  recipe.state = isProven(recipe.version) ? RecipeState::Proven : RecipeState::Draft;
  recipe.reason.clear();
  return store.saveRecipe(recipe);
}

SavedRecipe addPhoto(LibraryStore& store, const std::string& id, int madeFrom, const QString& file, const std::string& note,
                     const std::string& initials) {
  Recipe recipe = madeFromScreen(store, id, madeFrom);
  Attachment attachment = store.attach(std::filesystem::path(file.toStdString()));
  attachment.note = note;
  proofOf(recipe.version).attachments.push_back(std::move(attachment));
  recipe.version.savedBy = initials;
  if (recipe.state == RecipeState::Proven && !isProven(recipe.version)) recipe.state = RecipeState::Draft;  // called so by a laxer rule
  return store.saveRecipe(recipe);
}

void withdraw(LibraryStore& store, const std::string& id, int version, const std::string& reason, const std::string& initials) {
  store.setState(id, version, RecipeState::Withdrawn, reason, initials);
}

void takeBack(LibraryStore& store, const std::string& id, int version, const std::string& initials) {
  const Recipe recipe = store.recipe(id);
  store.setState(id, version, isProven(recipe.version) ? RecipeState::Proven : RecipeState::Draft, {}, initials);
}

}  // namespace bw
