// SPDX-License-Identifier: GPL-3.0-or-later
#define CATCH_CONFIG_RUNNER
#include "tests/support/catch.h"

#include "tests/ui/support.h"

#include <QApplication>
#include <QDir>
#include <QStandardPaths>
#include <QTemporaryDir>

int main(int argc, char** argv) {
  Catch::Session session;
  if (const int code = session.applyCommandLine(argc, argv)) return code;
  if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  // Settings and data of the person who runs the tests stay untouched.
  const QTemporaryDir home;
  for (const char* name : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"}) qputenv(name, home.path().toUtf8());
  QStandardPaths::setTestModeEnabled(true);
  QLocale::setDefault(QLocale::c());
  int qtArgc = 1;
  QApplication app(qtArgc, argv);
  QApplication::setApplicationName(QStringLiteral("Barewright"));
  QApplication::setOrganizationName(QStringLiteral("Barewright"));
  bw::test::useStableLook(bw::Theme::Light);
  return session.run();
}
