// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/bundle_jobs.h"

#include "core/exchange/bundle_file.h"
#include "core/files/file_io.h"
#include "core/library/library_backup.h"
#include "ui/style/to_qt.h"

#include <limits>

namespace bw {
namespace {

std::vector<std::string> foundIds(LibraryStore& store, WantedRecipes wanted) {
  wanted.query.skip = 0;
  wanted.query.most = std::numeric_limits<std::size_t>::max();
  std::vector<std::string> ids;
  for (const FoundRecipe& found : findRecipes(store, wanted).recipes) ids.push_back(found.row.id);
  return ids;
}

QString newestBackup(const LibraryStore& store) {
  try {
    const std::vector<LibraryBackup> backups = backupsOf(store.path());
    return backups.empty() ? QString() : QString::fromStdString(backups.front().date);
  } catch (const std::exception&) {  // then there is none to speak of
    return {};
  }
}

void demandAnotherFile(const LibraryStore& store, const std::filesystem::path& file) {
  std::error_code ignored;
  if (std::filesystem::equivalent(file, store.path(), ignored)) {
    throw FileError(shownPath(file) + ": is the library itself; another file is accepted");
  }
}

}  // namespace

ExportChoice choiceOf(LibraryStore& store, const GivenAway& given) {
  ExportChoice choice;
  switch (given.what) {
    case GivenAway::What::Recipe:
      choice.recipes = {given.id};
      break;
    case GivenAway::What::Found:
      choice.recipes = foundIds(store, given.found);
      break;
    case GivenAway::What::Entry:
      (given.kind == EntryKind::Machine   ? choice.machines
       : given.kind == EntryKind::Coating ? choice.coatings
                                          : choice.substrates) = {given.id};
      break;
    case GivenAway::What::Everything:
      choice.all = true;
      break;
  }
  return choice;
}

WrittenBundle giveAway(LibraryStore& store, const ExportChoice& choice, const BundleWords& words, const QString& file) {
  const std::filesystem::path path = toPath(file);
  demandAnotherFile(store, path);
  ExportResult result = exportBundle(store, choice);
  Bundle& bundle = result.bundle;
  bundle.from = words.from;
  bundle.note = words.note;
  bundle.madeAt = words.madeAt;
  const std::string text = writeBundle(bundle);
  writeFileAtomically(text, path);
  return {
      file,        bundle.recipes.size(),    bundle.substrates.size() + bundle.coatings.size(), bundle.machines.size(), bundle.files.size(),
      text.size(), std::move(result.notices)};
}

PreparedImport prepareImport(LibraryStore& store, const QString& file) {
  return prepareAgain(store, std::make_shared<const Bundle>(openBundle(toPath(file))));
}

PreparedImport prepareAgain(LibraryStore& store, std::shared_ptr<const Bundle> bundle) {
  return {planImport(store, std::move(bundle)), newestBackup(store)};
}

}  // namespace bw
