// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window_arguments.h"

#include <set>

namespace bw {
namespace {

// Options of QGuiApplication and QApplication, with one dash or two; from Qt's documentation of both classes.
const std::set<std::string> optionsWithValue{"platform", "platformpluginpath", "platformtheme", "plugin",  "qwindowgeometry", "qwindowicon",
                                             "qwindowtitle", "session",        "style",         "stylesheet", "display",      "geometry",
                                             "fontengine"};
const std::set<std::string> plainOptions{"reverse", "widgetcount", "nograb", "dograb", "sync"};

bool isWholeOption(const std::string& name) { return plainOptions.contains(name) || name.starts_with("style=") || name.starts_with("stylesheet="); }

}  // namespace

WindowArguments readWindowArguments(const std::vector<std::string>& arguments) {
  WindowArguments read;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& argument = arguments[i];
    const std::string name = argument.substr(argument.starts_with("--") ? 2 : argument.starts_with("-") ? 1 : 0);
    if (!argument.starts_with("-")) {
      if (!read.file.empty()) read.problem = argument + ": not expected; one project file is accepted (see --help)";
      read.file = argument;
    } else if (optionsWithValue.contains(name)) {
      read.namesPlatform |= name == "platform";
      ++i;
    } else if (!isWholeOption(name)) {
      read.problem = argument + ": no such option; see --help";
    }
  }
  return read;
}

}  // namespace bw
