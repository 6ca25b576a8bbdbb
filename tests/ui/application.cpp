// SPDX-License-Identifier: GPL-3.0-or-later
#define CATCH_CONFIG_EXTERNAL_INTERFACES  // listeners; version 2
#include "tests/support/catch.h"

#include "tests/ui/support.h"

#include <QApplication>
#include <QStandardPaths>
#include <QTemporaryDir>

#include <array>
#include <memory>

#ifdef CATCH_VERSION_MAJOR
#if CATCH_VERSION_MAJOR == 2
namespace Catch {
using EventListenerBase = TestEventListenerBase;
}
#endif
#endif

namespace {

/// The one application of a run of tests; where tests are only listed there is none.
class ApplicationForTheRun : public Catch::EventListenerBase {
 public:
  using Catch::EventListenerBase::EventListenerBase;

  void testRunStarting(const Catch::TestRunInfo& info) override {
    Catch::EventListenerBase::testRunStarting(info);
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    // Settings and data of the person who runs the tests stay untouched.
    for (const char* name : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"}) qputenv(name, m_home.path().toUtf8());
    QStandardPaths::setTestModeEnabled(true);
    QLocale::setDefault(QLocale::c());
    m_application = std::make_unique<QApplication>(m_count, m_words);
    QApplication::setApplicationName(QStringLiteral("Barewright"));
    QApplication::setOrganizationName(QStringLiteral("Barewright"));
    bw::test::useStableLook(bw::Theme::Light);
  }

  void testRunEnded(const Catch::TestRunStats& stats) override {
    Catch::EventListenerBase::testRunEnded(stats);
    m_application.reset();
  }

 private:
  QTemporaryDir m_home;
  std::array<char, 9> m_name{"ui_tests"};
  char* m_words[2] = {m_name.data(), nullptr};
  int m_count = 1;
  std::unique_ptr<QApplication> m_application;
};

}  // namespace

CATCH_REGISTER_LISTENER(ApplicationForTheRun)
