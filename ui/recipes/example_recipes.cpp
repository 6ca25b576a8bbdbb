// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/example_recipes.h"

#include "core/assess/assess.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "core/library/prediction.h"

#include <QFileInfo>

namespace bw {
namespace {

/// What is made up about a sample.
struct Invented {
  const char* file;
  const char* plan;
  const char* name;
  const char* note;
  RecipeState state;
  const char* reason;  // why it was withdrawn
  const char* where;   // of the trial; empty: none was made
  std::vector<Seen> seen;
  std::vector<Reading> readings;
};

const std::vector<Invented>& inventions() {
  static const std::vector<Invented> list{
      {"luggage-rack-bracket",
       "short passes, cooling between",
       "Luggage-rack bracket, grey powder",
       "Wait until the foot is hand-warm. No melting was seen under the loupe, whatever the model fears.",
       RecipeState::Proven,
       "",
       "inside of the bracket's foot",
       {Seen::Cleared},
       {{"thickness_before_um", 82, 5, {}}, {"passes", 3, {}, {}}, {"front_C", 240, 15, {}}, {"back_C", 79, 6, {}}}},
      {"carriage-side-panel",
       "first guess",
       "Carriage side panel, first guess",
       "The pale layers stall; turnarounds stripe.",
       RecipeState::Draft,
       "",
       "",
       {},
       {}},
      {"water-tank-lid",
       "wide spot and patience",
       "Water-tank lid, bitumen over zinc",
       "Wide spot and patience; the zinc has to stay.",
       RecipeState::Draft,
       "",
       "rim, under the hinge",
       {Seen::Patchy, Seen::Tint},
       {{"front_C", 350, 30, {}}}},
      {"lamp-bezel",
       "gentle try",
       "Lamp bezel, clear lacquer on brass",
       "",
       RecipeState::Withdrawn,
       "not with this beam: the lacquer lets it through, the solder gets hot, the shop is too cold for the machine",
       "back of the bezel",
       {Seen::Not, Seen::Tint},
       {{"back_C", 178, 8, {}}}},
      {"lamp-iron-bracket",
       "as set",
       "Lamp-iron bracket, white over rust",
       "Steep faces never clear; scrape the scale first.",
       RecipeState::Withdrawn,
       "rust under the paint comes back grey; blasting was quicker",
       "",
       {},
       {}}};
  return list;
}

Proof proofOf(const RecipeVersion& version, const Invented& made) {
  Proof proof;
  proof.machines = version.machines;
  proof.modelVersion = std::string(modelVersion);
  Trial& trial = proof.trials.emplace_back();
  trial.date = "2026-03-13";
  trial.where = made.where;
  trial.initials = "inv";
  trial.settings = stepsOf(version.plan).front().settings;
  trial.seen = made.seen;
  trial.readings = made.readings;
  trial.note = "invented";
  if (made.state != RecipeState::Proven) return proof;
  proof.date = "2026-03-14";
  proof.initials = "inv";
  proof.note = "invented judgement";
  return proof;
}

Prediction predictedBy(const AssessmentRunner::Model& model, const Project& project, const std::string& planName) {
  const Snapshot snapshot{std::make_shared<const Project>(project), planName};
  const Assessment first = model.assess(snapshot, {}, {});
  return predictionOf(model.inDepth ? model.inDepth(snapshot, first, {}) : first);
}

void keep(LibraryStore& store, const Project& project, const Invented& made, const AssessmentRunner::Model& model) {
  Recipe recipe;
  recipe.state = made.state;
  recipe.reason = made.reason;
  RecipeVersion& version = recipe.version;
  version = recipeFrom(project, made.plan, shippedLibrary());
  version.name = made.name;
  version.note = std::string("Invented. ") + made.note;
  version.savedBy = "inv";
  version.predicted = predictedBy(model, project, version.plan.name);
  version.proof.reset();
  if (made.where[0] != '\0') version.proof = proofOf(version, made);
  store.saveRecipe(recipe);
}

}  // namespace

void fillWithInvented(LibraryStore& store, const QString& sampleFolder, const AssessmentRunner::Model& model) {
  for (const Invented& made : inventions()) {
    const QString file = QStringLiteral("%1/%2.bwright").arg(sampleFolder, QLatin1String(made.file));
    if (QFileInfo::exists(file)) keep(store, openProject(std::filesystem::path(file.toStdU16String()), shippedLibrary()), made, model);
  }
}

}  // namespace bw
