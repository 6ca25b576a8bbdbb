// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/library_command.h"

#include "app/command_line.h"
#include "app/exchange_command.h"
#include "core/assess/assess.h"
#include "core/files/file_io.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "core/library/library_path.h"
#include "core/library/library_report.h"
#include "core/library/prediction.h"
#include "core/values/unusable.h"

#include <CLI/CLI.hpp>

#include <iostream>
#include <limits>
#include <memory>
#include <string_view>

namespace fs = std::filesystem;

namespace bw {
namespace {

const std::map<std::string, MachineKind> kinds{{"pulsed", MachineKind::Pulsed}, {"continuous", MachineKind::Continuous}};
const std::map<std::string, Finish> finishWords{{"untouched", Finish::Untouched}, {"light-etch", Finish::LightEtch}, {"any", Finish::Any}};

struct LibraryArguments {
  std::string library;
  bool json = false;
  std::vector<std::string> words;
  RecipeQuery query;
  std::optional<double> coatFrom_um;
  std::optional<double> coatTo_um;
  std::string kind;
  std::string finish;
  std::string id;
  int version = 0;
  std::string backup;
  std::string machine;
  bool save = false;
  std::string project;
  std::string plan;
  std::size_t most = 10;

  fs::path path() const { return library.empty() ? defaultLibraryPath() : fs::path(library); }
};

/// Looking makes no library and writes to none.
LibraryStore openToLook(const LibraryArguments& arguments) {
  LibraryOptions options;
  options.readOnly = true;
  return LibraryStore(arguments.path(), options);
}

/// Nobody has kept anything yet; a library that was named and is not there is an error instead.
bool isNoneYet(const LibraryArguments& arguments) { return arguments.library.empty() && !fs::exists(arguments.path()); }

int sayNoneYet(const LibraryArguments& arguments, const Print& print) {
  if (arguments.json)
    print(R"({"library": null, "total": 0, "recipes": [], "backups": []})"
          "\n");
  else
    print("There is no library yet. It is made with the first recipe that is kept or imported, as " + shownPath(arguments.path()) + ".\n");
  return Done;
}

std::chrono::system_clock::time_point now() { return std::chrono::system_clock::now(); }

int list(const LibraryArguments& arguments, const Print& print) {
  RecipeQuery query;
  query.most = std::numeric_limits<std::size_t>::max();
  const RecipeFindings findings = openToLook(arguments).find(query);
  print(arguments.json ? findingsJson(findings) : findingsTable(findings));
  return Done;
}

int find(const LibraryArguments& arguments, const Print& print) {
  RecipeQuery query = arguments.query;
  for (const std::string& word : arguments.words) query.text += word + " ";
  if (arguments.coatFrom_um) query.coatFrom_m = *arguments.coatFrom_um / 1e6;
  if (arguments.coatTo_um) query.coatTo_m = *arguments.coatTo_um / 1e6;
  if (!arguments.kind.empty()) query.machineKind = kinds.at(arguments.kind);
  if (!arguments.finish.empty()) query.finish = finishWords.at(arguments.finish);
  const RecipeFindings findings = openToLook(arguments).find(query);
  print(arguments.json ? findingsJson(findings) : findingsTable(findings));
  return Done;
}

int nearest(const LibraryArguments& arguments, const Print& print) {
  const Project project = openProject(arguments.project, shippedLibrary());
  if (!arguments.plan.empty() && !findPlan(project, arguments.plan))
    throw Unusable("--plan: the project has no plan \"" + arguments.plan + "\"");
  NearestQuery query = nearestTo(project, arguments.plan);
  query.provenOnly = arguments.query.provenOnly;
  query.withdrawnToo = !query.provenOnly;  // "not with this beam" is worth knowing
  query.most = arguments.most;
  const auto found = openToLook(arguments).nearest(query);
  print(arguments.json ? nearestJson(found) : nearestTable(found));
  return Done;
}

int show(const LibraryArguments& arguments, const Print& print) {
  LibraryStore store = openToLook(arguments);
  Recipe recipe = store.recipe(arguments.id);
  if (arguments.version > 0) recipe.version = store.version(arguments.id, arguments.version);
  const auto versions = store.versions(arguments.id);
  const auto stale = store.staleReasons(recipe.version, modelVersion);
  print(arguments.json ? recipeJson(recipe, versions, stale) : recipeTable(recipe, versions, stale));
  return Done;
}

/// By name of the shop's or the shipped machines.
Machine machineOf(LibraryStore& store, const std::string& id) {
  std::string known;
  for (const auto& entry : store.machines()) {
    if (entry.value.machine.id == id) return entry.value.machine;
    known += (known.empty() ? "" : ", ") + entry.value.machine.id;
  }
  throw LibraryError(LibraryTrouble::Missing, "--machine: there is no machine \"" + id + "\"; there are " + known);
}

int carry(const LibraryArguments& arguments, const Print& print) {
  LibraryStore store = arguments.save ? LibraryStore(arguments.path()) : openToLook(arguments);
  CarriedRecipe carried = carriedTo(store.recipe(arguments.id).version, machineOf(store, arguments.machine));
  const Assessment assessment = assess(projectOf(carried.version), carried.version.plan.name, store.materials());
  std::string id;
  if (arguments.save) {
    carried.version.predicted = predictionOf(assessment);
    Recipe recipe;
    recipe.version = carried.version;
    id = store.saveRecipe(recipe).id;
  }
  print(arguments.json ? carriedJson(carried, assessment, id) : carriedTable(carried, assessment, id));
  return Done;
}

int machines(const LibraryArguments& arguments, const Print& print) {
  const auto all = openToLook(arguments).machines();
  print(arguments.json ? machinesJson(all) : machinesTable(all));
  return Done;
}

int shop(const LibraryArguments& arguments, const Print& print) {
  const ShopFacts facts = openToLook(arguments).shop();
  print(arguments.json ? shopJson(facts) : shopTable(facts));
  return Done;
}

int backUpNow(const LibraryArguments& arguments, const Print& print) {
  const std::vector<LibraryBackup> made{backUp(arguments.path(), now())};
  print(arguments.json ? backupsJson(made) : backupsTable(made));
  return Done;
}

int listBackups(const LibraryArguments& arguments, const Print& print) {
  const auto backups = backupsOf(arguments.path());
  print(arguments.json ? backupsJson(backups) : backupsTable(backups));
  return Done;
}

int restore(const LibraryArguments& arguments, const Print& print) {
  const fs::path library = arguments.path();
  fs::path backup = arguments.backup;
  if (backup.empty()) {
    const auto backups = backupsOf(library);
    if (backups.empty())
      throw LibraryError(LibraryTrouble::Missing, shownPath(library) + ": there is no backup of it; the path of one is accepted");
    backup = backups.front().path;
  }
  const auto aside = restoreBackup(library, backup, now());
  const std::string kept = aside ? aside->string() : "";
  if (arguments.json)
    print(restoredJson(library.string(), backup.string(), kept));
  else
    print(shownPath(library) + ": restored from " + shownPath(backup) +
          (kept.empty() ? "" : "; what was there is kept as " + shownPath(kept)) + "\n");
  return Done;
}

int check(const LibraryArguments& arguments, const Print& print) {
  const fs::path library = arguments.path();
  const LibraryCheck found = checkLibrary(library);
  print(arguments.json ? checkJson(library.string(), found) : checkTable(shownPath(library), found));
  if (found.sound()) return Done;
  throw LibraryError(LibraryTrouble::Corrupt, shownPath(library) + ": " + std::to_string(found.findings.size()) +
                                                  " problems found; barewright library restore puts the last backup in its place");
}

void addFind(CLI::App& verb, LibraryArguments& arguments) {
  verb.add_option("WORDS", arguments.words, "Words or their beginnings, all of which must be found");
  verb.add_option("--substrate", arguments.query.substrates, "Id of the metal; several: any of them")->allow_extra_args(false);
  verb.add_option("--coating", arguments.query.coatings, "Id of a coating in the coat; several: any of them")->allow_extra_args(false);
  verb.add_option("--coat-from-um", arguments.coatFrom_um, "Least thickness of the whole coat");
  verb.add_option("--coat-to-um", arguments.coatTo_um, "Greatest thickness of the whole coat");
  verb.add_option("--kind", arguments.kind, "Kind of machine")->check(CLI::IsMember(kinds));
  verb.add_option("--finish", arguments.finish, "Finish of the metal")->check(CLI::IsMember(finishWords));
  verb.add_flag("--proven", arguments.query.provenOnly, "Proven recipes only");
  verb.add_option("--most", arguments.query.most, "How many to print; 50 if left out");
}

using Verb = std::function<int(const LibraryArguments&, const Print&)>;

}  // namespace

std::function<int(const Print&)> addLibrary(CLI::App& app) {
  const auto arguments = std::make_shared<LibraryArguments>();
  CLI::App* library = app.add_subcommand("library",
                                         "Recipes, machines and materials that are kept: list, find, find the nearest, show, carry over, "
                                         "machines, the shop, "
                                         "export, import, back up, restore, check");
  library->require_subcommand(1);
  library->footer("Without --library it is barewright/library.sqlite in the user's data folder (XDG_DATA_HOME, or ~/.local/share).\n");
  const auto chosen = std::make_shared<Verb>();
  const auto add = [&](const char* name, const char* what, const Verb& verb) {
    CLI::App* added = library->add_subcommand(name, what);
    added->add_option("--library", arguments->library, "The library's file, instead of the user's own");
    added->add_flag("--json", arguments->json, "Print JSON instead of a table");
    const bool looks = std::string_view(name) != "restore" && std::string_view(name) != "import";
    added->callback([chosen, verb, looks] {
      *chosen = [verb, looks](const LibraryArguments& given, const Print& print) {
        return looks && isNoneYet(given) ? sayNoneYet(given, print) : verb(given, print);
      };
    });
    return added;
  };
  library->add_option("--library", arguments->library, "The library's file, instead of the user's own");
  add("list", "Print all recipes, proven ones first", list);
  addFind(*add("find", "Print the recipes that hold the words and go with the options", find), *arguments);
  CLI::App* near = add("nearest", "Print the recipes nearest to a project's part, coat and machine, and what makes the distance", nearest);
  near->add_option("PROJECT", arguments->project, "The project's file")->required();
  near->add_option("--plan", arguments->plan, "Name of the plan whose machine it is; the first if left out");
  near->add_flag("--proven", arguments->query.provenOnly, "Proven recipes only; else withdrawn ones are told as well");
  near->add_option("--most", arguments->most, "How many to print; 10 if left out");
  CLI::App* shown = add("show", "Print one recipe with its proof and what makes it stale", show);
  shown->add_option("ID", arguments->id, "Id of the recipe")->required();
  shown->add_option("--version", arguments->version, "Number of the version; the newest if left out");
  CLI::App* carried =
      add("carry", "Carry a recipe over to another machine: what is kept, what had to give, what to expect; not proven", carry);
  carried->add_option("ID", arguments->id, "Id of the recipe")->required();
  carried->add_option("--machine", arguments->machine, "Id of the machine, one of the library's or of those that come with the program")
      ->required();
  carried->add_flag("--save", arguments->save, "Keep it as a new draft");
  add("machines", "Print the machines a plan can be made for, the shop's own first", machines);
  add("shop", "Print the shop as it usually is: room, people, extraction, prices", shop);
  add("backup", "Copy the library into the folder of backups beside it, and check the copy", backUpNow);
  add("backups", "Print which backups there are, the newest first", listBackups);
  add("restore", "Put a backup in the library's place and keep aside what was there", restore)
      ->add_option("BACKUP", arguments->backup, "The backup's file; the newest if left out");
  add("check", "Look through every page and attachment, and name what is wrong", check);
  addExchange([&](const char* name, const char* what, const std::function<int(const LibraryChoice&, const Print&)>& run) {
    return add(name, what, [run](const LibraryArguments& given, const Print& print) { return run({given.path(), given.json}, print); });
  });
  return [arguments, chosen](const Print& print) { return (*chosen)(*arguments, print); };
}

}  // namespace bw
