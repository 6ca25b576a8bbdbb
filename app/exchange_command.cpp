// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/exchange_command.h"

#include "app/command_line.h"
#include "core/exchange/bundle_file.h"
#include "core/exchange/import_report.h"
#include "core/files/file_io.h"

#include <CLI/CLI.hpp>

#include <map>
#include <memory>

namespace fs = std::filesystem;

namespace bw {
namespace {

const std::map<std::string, ImportDecision> keepWords{
    {"mine", ImportDecision::Mine}, {"theirs", ImportDecision::Theirs}, {"both", ImportDecision::Both}};

struct ExportArguments {
  std::string file;
  ExportChoice choice;
  bool noAttachments = false;
};

struct ImportArguments {
  std::string file;
  std::string keep;
  bool dryRun = false;
};

LibraryStore openToRead(const fs::path& path) {
  LibraryOptions options;
  options.readOnly = true;
  return LibraryStore(path, options);
}

int exportTo(const ExportArguments& arguments, const LibraryChoice& library, const Print& print) {
  std::error_code ignored;
  if (fs::equivalent(arguments.file, library.path, ignored)) {
    throw FileError(shownPath(arguments.file) + ": is the library itself; another file is accepted");
  }
  ExportChoice choice = arguments.choice;
  choice.attachments = !arguments.noAttachments;
  choice.all = choice.recipes.empty() && choice.substrates.empty() && choice.coatings.empty() && choice.machines.empty();
  LibraryStore store = openToRead(library.path);
  const ExportResult result = exportBundle(store, choice);
  const std::string text = writeBundle(result.bundle);
  if (arguments.file == "-") {
    print(text);
    return Done;
  }
  writeFileAtomically(text, arguments.file);
  print(library.json ? exportJson(result, arguments.file) : exportTable(result, shownPath(arguments.file)));
  return Done;
}

int importFrom(const ImportArguments& arguments, const LibraryChoice& library, const Print& print) {
  Bundle bundle = openBundle(arguments.file);
  LibraryStore store = arguments.dryRun ? openToRead(library.path) : LibraryStore(library.path);
  const ImportPlan plan = planImport(store, std::move(bundle));
  const auto report = [&](const std::optional<ImportOutcome>& outcome) {
    print(library.json ? importJson(plan, outcome) : importTable(plan, outcome));
  };
  const bool isOpen = plan.hasConflicts() && arguments.keep.empty();
  if (arguments.dryRun || isOpen) report({});
  if (!arguments.dryRun && isOpen) {
    throw LibraryError(LibraryTrouble::Conflict, shownPath(arguments.file) + ": " + std::to_string(plan.count(ImportStatus::Conflict)) +
                                                     " of its entries differ from the library's; nothing was imported: --keep mine, --keep "
                                                     "theirs or --keep both says what to do with them");
  }
  if (arguments.dryRun) return Done;
  report(applyImport(store, plan, arguments.keep.empty() ? ImportDecisions{} : decideAll(plan, keepWords.at(arguments.keep))));
  return Done;
}

void addExport(const AddLibraryVerb& add) {
  const auto arguments = std::make_shared<ExportArguments>();
  CLI::App* verb =
      add("export", "Write recipes with all their versions, own materials and own machines into one bundle, for another library",
          [arguments](const LibraryChoice& library, const Print& print) { return exportTo(*arguments, library, print); });
  verb->add_option("FILE", arguments->file, "The bundle to write; - is standard output")->required();
  verb->add_option("--recipe", arguments->choice.recipes, "Id of a recipe, instead of everything; may be given again")
      ->allow_extra_args(false);
  verb->add_option("--substrate", arguments->choice.substrates, "Id of a metal, likewise")->allow_extra_args(false);
  verb->add_option("--coating", arguments->choice.coatings, "Id of a coating, likewise")->allow_extra_args(false);
  verb->add_option("--machine", arguments->choice.machines, "Id of a machine, likewise")->allow_extra_args(false);
  verb->add_flag("--no-attachments", arguments->noAttachments, "Leave photos and documents out; what they are called goes along");
}

void addImport(const AddLibraryVerb& add) {
  const auto arguments = std::make_shared<ImportArguments>();
  CLI::App* verb = add("import", "Bring a bundle in, whole or not at all; what differs from the library's is never overwritten unasked",
                       [arguments](const LibraryChoice& library, const Print& print) { return importFrom(*arguments, library, print); });
  verb->add_option("FILE", arguments->file, "The bundle")->required();
  verb->add_flag("--dry-run", arguments->dryRun, "Only print what is new, what is there already, and what differs, side by side");
  verb->add_option("--keep", arguments->keep,
                   "What to do where both differ: keep mine; take theirs (versions come after mine, a material or machine in the place of "
                   "mine); or both, theirs under a new id and name")
      ->check(CLI::IsMember(keepWords));
}

}  // namespace

void addExchange(const AddLibraryVerb& add) {
  addExport(add);
  addImport(add);
}

}  // namespace bw
