// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/library/library_store.h"

#include <QImage>
#include <QString>

#include <map>
#include <memory>

// What the recipes' workspace has the library do, on the desk's thread. Plain values in, plain values out.
namespace bw {

/// What is looked for: by words and facets, or what is nearest to a part and coat.
struct WantedRecipes {
  RecipeQuery query;
  std::optional<NearestQuery> nearest;
};

struct FoundRecipe {
  RecipeRow row;
  std::optional<double> distance;   // of the nearest
  std::vector<DistancePart> parts;  // what makes the distance
};

struct FoundRecipes {
  std::vector<FoundRecipe> recipes;
  std::size_t skipped = 0;  // how many stand before these
  std::size_t total = 0;
  std::optional<RecipeFacets> facets;  // nothing: as they were
};

FoundRecipes findRecipes(LibraryStore& store, const WantedRecipes& wanted);

/// What a row of the list shows besides what the search gives.
struct RowDetail {
  int version = 0;
  QString machine;  // as it is called
  Coat coat;
  Library materials;
  bool stale = false;
};

std::map<std::string, RowDetail> rowDetails(LibraryStore& store, const std::vector<std::string>& ids);

/// A photo, small enough for the screen, or another file. No picture: it shows none, or is gone.
struct Photo {
  Attachment attachment;
  QImage small;
  QString file;
};

/// All about one recipe.
struct RecipeDetail {
  Recipe recipe;
  std::vector<RecipeVersion> versions;  // newest first
  RecipeVersion shown;                  // one of them
  std::vector<std::string> stale;       // why its proof no longer holds
  std::vector<Difference> changed;      // from the version before
  std::vector<Photo> photos;
  bool isNewest() const { return shown.number == recipe.version.number; }
};

/// `version` 0: the newest.
RecipeDetail recipeDetail(LibraryStore& store, const std::string& id, int version);

/// The open plan, as it was when it was asked for.
struct OpenPlan {
  std::shared_ptr<const Project> project;
  std::string plan;
  std::shared_ptr<const Assessment> assessment;  // nothing: none yet
};

/// What a person says of a recipe when it is kept.
struct KeptWords {
  std::string name;
  std::string note;
  std::string initials;
};

SavedRecipe keepPlan(LibraryStore& store, const OpenPlan& open, const KeptWords& words);
/// A new version of a recipe. `madeFrom`: the version that was on screen.
SavedRecipe keepNewVersion(LibraryStore& store, const std::string& id, int madeFrom, const OpenPlan& open, const KeptWords& words);

/// A file to be kept beside the library, as it was read.
struct KeptFile {
  std::shared_ptr<const std::string> content;
  std::string name;
  std::string note;
};

/// What was tried with a recipe, all of it, and who says so.
struct Judgement {
  std::vector<Trial> trials;
  std::string date;
  std::string initials;
  std::string note;
  std::vector<KeptFile> files = {};  // that readings were taken from
};

/// The version with all these trials. Only where they prove it does the judgement get its date and name.
RecipeVersion withTrials(RecipeVersion version, const Judgement& judgement);
/// Keeps the trials; the recipe is proven by them or a draft.
SavedRecipe keepTrials(LibraryStore& store, const std::string& id, int madeFrom, const Judgement& judgement);
SavedRecipe addPhoto(LibraryStore& store, const std::string& id, int madeFrom, const QString& file, const std::string& note,
                     const std::string& initials);
void withdraw(LibraryStore& store, const std::string& id, int version, const std::string& reason, const std::string& initials);
/// Takes a withdrawal back: proven where its trials prove it, else a draft.
void takeBack(LibraryStore& store, const std::string& id, int version, const std::string& initials);

/// Whether somebody judged it: with a date and a name.
bool isJudged(const std::optional<Proof>& proof);

}  // namespace bw
