// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command_line.h"

#include "app/library_command.h"
#include "app/measure_verb.h"
#include "app/outputs.h"
#include "app/window_arguments.h"
#include "core/assess/assess.h"
#include "core/exchange/schema.h"
#include "core/files/assessment_file.h"
#include "core/files/file_io.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#ifdef BAREWRIGHT_WINDOW
#include "ui/window.h"
#endif

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>
#include <set>

namespace fs = std::filesystem;

namespace bw {
namespace {

struct AssessArguments {
  std::string file;
  std::string plan;
  std::string json;
  std::string map;
  std::string profile;
  std::string trace;
  std::string partMap;
  std::string view = "middle";
  double still_s = 1;
  bool strict = false;
};

/// One line on standard error, whatever the message holds.
void complain(std::string message) {
  std::ranges::replace_if(message, [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  std::cerr << "barewright: " << message << '\n';
}

/// Words for the parts of the work a map can show.
const std::map<std::string, Scene> scenes{{"middle", Scene::Endless}, {"one-swath", Scene::OneSwath}, {"start", Scene::StrokeStart},
                                          {"end", Scene::StrokeEnd},  {"still", Scene::StillHand},    {"corner", Scene::Corner}};

std::string mapText(const Assessment& assessment) {
  if (assessment.sceneMap) return mapCsv(*assessment.sceneMap);
  if (assessment.scene.scene != Scene::Endless)
    throw Unusable("--map: this view of the dose is not computed for this plan; a travel speed above 0 or a smaller frame is accepted");
  if (assessment.map) return mapCsv(*assessment.map);
  if (assessment.stillMap) return mapCsv(*assessment.stillMap);
  throw Unusable("--map: no dose map is computed for this plan");
}

std::string profileText(const Assessment& assessment) {
  if (!assessment.profile.position_m.empty()) return profileCsv(assessment.profile);
  throw Unusable("--profile: there is no swath (the hand stands still); a plan with a travel speed above 0 is accepted");
}

std::string traceText(const Assessment& assessment) {
  if (!assessment.thermal.trace.time_s.empty()) return traceCsv(assessment.thermal);
  throw Unusable("--trace: temperatures are not computed for this plan");
}

std::string partMapText(const Assessment& assessment) {
  if (assessment.thermal.map) return partMapCsv(*assessment.thermal.map);
  throw Unusable("--part-map: temperatures are not computed for this plan; a travel speed above 0 is accepted");
}

/// Everything that was asked for, made before anything is written.
std::vector<Output> outputsOf(const Assessment& assessment, const AssessArguments& arguments) {
  std::vector<Output> outputs;
  if (!arguments.json.empty()) outputs.push_back({arguments.json, writeAssessment(assessment)});
  if (!arguments.map.empty()) outputs.push_back({arguments.map, mapText(assessment)});
  if (!arguments.profile.empty()) outputs.push_back({arguments.profile, profileText(assessment)});
  if (!arguments.trace.empty()) outputs.push_back({arguments.trace, traceText(assessment)});
  if (!arguments.partMap.empty()) outputs.push_back({arguments.partMap, partMapText(assessment)});
  return outputs;
}

/// Before the calculation: results must overwrite neither the project nor each other.
void checkOutputPaths(const AssessArguments& arguments) {
  std::vector<std::string> taken;
  for (const std::string& path : {arguments.json, arguments.map, arguments.profile, arguments.trace, arguments.partMap}) {
    std::error_code ignored;
    if (path.empty()) continue;
    if (fs::equivalent(path, arguments.file, ignored)) {
      throw FileError(shownPath(path) + ": is the project itself; another file is accepted");
    }
    if (std::ranges::find(taken, path) != taken.end()) {
      throw FileError(shownPath(path) + ": named twice; a file for each result is accepted");
    }
    taken.push_back(path);
  }
}

int assessFile(const AssessArguments& arguments) {
  checkOutputPaths(arguments);
  const Project project = openProject(arguments.file, shippedLibrary());
  Assessment assessment;
  std::vector<Output> outputs;
  try {
    assessment = inDepth(project, shippedLibrary(),
                         assess(project, arguments.plan, shippedLibrary(), {}, {scenes.at(arguments.view), arguments.still_s}));
    outputs = outputsOf(assessment, arguments);
  } catch (const Unusable& error) {
    throw Unusable(shownPath(arguments.file) + ": " + error.what());
  }
  write(outputs);
  if (std::ranges::find(outputs, "-", &Output::path) == outputs.end()) print(assessmentTable(assessment));
  const bool fails = std::ranges::find(assessment.verdict, Status::Fails, &VerdictRow::status) != assessment.verdict.end();
  return arguments.strict && fails ? LimitFailed : Done;
}

int checkFile(const std::string& file) {
  const ReadResult read = readProject(readWholeFile(file), shippedLibrary());
  std::string list;
  for (const Problem& problem : read.problems) list += problem.path + ": " + problem.message + '\n';
  print(read.problems.empty() ? shownPath(file) + ": no problem found\n" : list);
  if (read.problems.empty()) return Done;
  complain(shownPath(file) + ": " + summary(read.problems));
  return UnusableInput;
}

[[maybe_unused]] bool hasDisplay() { return std::getenv("DISPLAY") || std::getenv("WAYLAND_DISPLAY") || std::getenv("QT_QPA_PLATFORM"); }

int openWindow([[maybe_unused]] int argc, [[maybe_unused]] char** argv) {
  const WindowArguments arguments = readWindowArguments({argv + 1, argv + argc});
  if (!arguments.problem.empty()) throw FileError(arguments.problem);
  if (!arguments.file.empty() && !fs::exists(arguments.file)) {
    throw FileError(shownPath(arguments.file) + ": there is no such file or verb; see --help");
  }
#ifdef BAREWRIGHT_WINDOW
  if (!arguments.namesPlatform && !hasDisplay()) {
    throw FileError("no display to open a window on (neither DISPLAY nor WAYLAND_DISPLAY is set); assess FILE and check FILE need none");
  }
  return runWindow(argc, argv, arguments.file);
#else
  throw FileError("built without its window; assess FILE and check FILE need none");
#endif
}

/// Adds the verb `assess`; its arguments are filled in by parsing.
CLI::App* addAssess(CLI::App& app, AssessArguments& arguments) {
  CLI::App* verb = app.add_subcommand("assess", "Compute what a plan does to the part");
  verb->add_option("FILE", arguments.file, "Project file")->required();
  verb->add_option("--plan", arguments.plan, "Name of the plan; the first one if left out");
  verb->add_option("--json", arguments.json, "Write every result as JSON; - is standard output");
  verb->add_option("--map", arguments.map, "Write the steady dose map as CSV");
  verb->add_option("--view", arguments.view,
                   "What --map shows: the middle of the area, or one swath alone, a stroke's start or end, a still hand, the area's corner")
      ->check(CLI::IsMember(scenes));
  verb->add_option("--still-s", arguments.still_s, "How many seconds the hand of --view still stands")->check(CLI::Range(0.0, 3600.0));
  verb->add_option("--profile", arguments.profile, "Write the dose across the swath as CSV");
  verb->add_option("--trace", arguments.trace, "Write temperature against time as CSV");
  verb->add_option("--part-map", arguments.partMap, "Write the highest temperature all over the part as CSV");
  verb->add_flag("--strict", arguments.strict, "Exit with status 1 if the plan fails a check");
  return verb;
}

int runVerb(int argc, char** argv) {
  AssessArguments arguments;
  MeasureArguments measured;
  std::string checked;
  CLI::App app{"Plans the stripping of coated metal parts with handheld lasers.\n"
               "Without a verb it opens its window; with a FILE alone, that project in it.",
               "barewright"};
  app.set_version_flag("--version", std::string("barewright ") + BAREWRIGHT_VERSION + ", model " + modelVersion);
  app.footer("Exit status: 0 done, 1 the plan fails a check (--strict), 2 unusable input, 3 internal failure.\n");
  app.require_subcommand(1);
  const CLI::App* assessVerb = addAssess(app, arguments);
  const CLI::App* measureVerb = addMeasure(app, measured);
  const auto runLibrary = addLibrary(app);
  app.add_subcommand("check", "Name everything that is wrong in a project file")->add_option("FILE", checked, "Project file")->required();
  std::string schema;
  app.add_subcommand("schema", "Print the JSON Schema of the files, for other programs")
      ->add_option("FORMAT", schema, "bundle (of library export) or project")
      ->required()
      ->check(CLI::IsMember({"bundle", "project"}));
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error);
    throw FileError(std::string(error.what()) + "; see --help");
  }
  if (measureVerb->parsed()) return measureFile(measured);
  if (app.get_subcommand("library")->parsed()) return runLibrary(print);
  if (!schema.empty()) {
    print(schema == "bundle" ? bundleSchema() : projectSchema());
    return Done;
  }
  return assessVerb->parsed() ? assessFile(arguments) : checkFile(checked);
}

bool namesVerb(int argc, char** argv) {
  const std::string first = argc > 1 ? argv[1] : "";
  static const std::set<std::string> known{"assess", "check", "library", "measure", "schema", "--help", "-h", "--version"};
  return known.contains(first);
}

}  // namespace

int runCommandLine(int argc, char** argv) {
  try {
    return namesVerb(argc, argv) ? runVerb(argc, argv) : openWindow(argc, argv);
  } catch (const FileError& error) {
    complain(error.what());
  } catch (const Unusable& error) {
    complain(error.what());
  } catch (const std::exception& error) {
    complain(std::string("internal failure: ") + error.what());
    return InternalFailure;
  }
  return UnusableInput;
}

}  // namespace bw
