// SPDX-License-Identifier: GPL-3.0-or-later

// How long a person waits: from the program's start to the first assessment on screen, and from an edit to the plots that show it.
// Each beside a figure from the same run: an empty window, and the calculation alone.

#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "tests/bench/watched_application.h"
#include "tests/support/some_recipes.h"
#include "ui/document/edits.h"
#include "ui/main_window.h"
#include "ui/recipes/find_panel.h"
#include "ui/recipes/recipe_list_model.h"
#include "ui/recipes_workspace.h"
#include "ui/style/theme.h"

#include <QLineEdit>
#include <QProcess>
#include <QSignalSpy>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QtTest>
#include <qcustomplot.h>

#include <algorithm>
#include <cstdio>
#include <functional>

namespace {

using namespace bw;

const QString sample = QStringLiteral(BAREWRIGHT_SOURCE_DIR "/sample-projects/carriage-side-panel.bwright");
constexpr int patience_ms = 60000;

double milliseconds(Clock::duration duration) { return std::chrono::duration<double, std::milli>(duration).count(); }

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

void tell(Clock::time_point at) { std::printf("%lld\n", static_cast<long long>(at.time_since_epoch().count())); }

bool waitFor(QSignalSpy& spy) { return !spy.isEmpty() || spy.wait(patience_ms); }

/// As `barewright FILE` begins; tells when the first assessment was on screen.
int openSample(WatchedApplication& app) {
  applyTheme(Theme::Light);
  QTemporaryDir folder;
  MainWindow window({shippedModel(), folder.path(), folder.filePath(QStringLiteral("library.sqlite"))});
  QSignalSpy shown(&window, &MainWindow::shown);
  window.show();
  if (!window.openFile(sample) || !waitFor(shown)) return 1;
  tell(app.settled().at);
  return 0;
}

int openNothing(WatchedApplication& app) {
  QMainWindow window;
  window.resize(1280, 800);
  window.show();
  tell(app.settled().at);
  return 0;
}

double startTime_ms(const QString& what) {
  const auto begin = Clock::now();
  QProcess child;
  child.start(QCoreApplication::applicationFilePath(), {what});
  if (!child.waitForFinished(patience_ms) || child.exitCode() != 0) qFatal("the window did not open");
  return milliseconds(Clock::time_point(Clock::duration(child.readAllStandardOutput().trimmed().toLongLong())) - begin);
}

double medianOf(int times, const std::function<double()>& measure) {
  std::vector<double> values;
  for (int i = 0; i < times; ++i) values.push_back(measure());
  return median(values);
}

void measureStart() {
  const double ours = medianOf(5, [] { return startTime_ms(QStringLiteral("--sample")); });
  const double plain = medianOf(5, [] { return startTime_ms(QStringLiteral("--nothing")); });
  std::printf("start to first assessment on screen: ours %.0f ms, an empty window %.0f ms, ours / empty %.2f\n", ours, plain, ours / plain);
}

double assessment_ms(const Project& project) {
  const auto begin = Clock::now();
  const Assessment assessment = assess(project, {}, shippedLibrary());
  return milliseconds(Clock::now() - begin);
}

struct Edits {
  std::vector<double> untilPlots_ms;
  std::vector<double> untilPainted_ms;
  std::vector<double> calculation_ms;  // the same project, on its own
  std::vector<double> threadBusy_ms;
  std::vector<double> longestEvent_ms;
};

/// One typed value, and what follows until the window is at rest with the new result; then, with nothing else running, the calculation.
void edit(WatchedApplication& app, MainWindow& window, double powerFraction, Edits& edits) {
  QSignalSpy shown(&window, &MainWindow::shown), remedies(&window.runner(), &AssessmentRunner::remediesFound);
  app.watch();
  const auto begin = Clock::now();
  const double busyBefore_s = threadTime_s();
  Clock::time_point plotted;
  for (QCustomPlot* plot : window.findChildren<QCustomPlot*>()) {
    QObject::connect(plot, &QCustomPlot::afterReplot, &shown, [&plotted] { plotted = Clock::now(); });
  }
  edits::setSetting(window.document(), &Settings::powerFraction, QStringLiteral("power"), powerFraction);
  if (!waitFor(shown)) qFatal("an edit brought no assessment");
  const Painted painted = app.settled();
  edits.untilPlots_ms.push_back(milliseconds(plotted - begin));
  edits.untilPainted_ms.push_back(milliseconds(painted.at - begin));
  edits.threadBusy_ms.push_back(1e3 * (painted.threadTime_s - busyBefore_s));
  edits.longestEvent_ms.push_back(1e3 * painted.longestEvent_s);
  if (!waitFor(remedies)) qFatal("nobody looked for remedies");
  edits.calculation_ms.push_back(assessment_ms(window.document().project()));
}

void measureEdits(WatchedApplication& app) {
  QTemporaryDir folder;
  MainWindow window({shippedModel(), folder.path(), folder.filePath(QStringLiteral("library.sqlite"))});
  QSignalSpy shown(&window, &MainWindow::shown);
  window.show();
  if (!window.openFile(sample) || !waitFor(shown)) qFatal("the sample did not open");
  app.settled();

  Edits edits;
  for (int i = 0; i < 11; ++i) edit(app, window, 0.8 - 0.01 * i, edits);
  const double until = median(edits.untilPlots_ms), alone = median(edits.calculation_ms);
  std::printf("edit to plots refreshed: ours %.1f ms, the calculation alone %.1f ms, ours / calculation %.2f\n", until, alone,
              until / alone);
  std::printf("edit to the whole window at rest: %.1f ms\n", median(edits.untilPainted_ms));
  std::printf("interface's thread for one edit: busy %.1f ms, longest single event %.1f ms (medians of %zu edits)\n",
              median(edits.threadBusy_ms), median(edits.longestEvent_ms), edits.untilPainted_ms.size());
}

/// From a key in the search field to the list that shows what it found, beside the library's search alone.
void measureSearch() {
  constexpr unsigned recipes = 20000;
  QTemporaryDir folder;
  const QString path = folder.filePath(QStringLiteral("library.sqlite"));
  {
    LibraryStore store(path.toStdString());
    store.inOneGo([&] {
      for (unsigned number = 0; number < recipes; ++number) store.saveRecipe(test::SomeRecipes::number(number));
    });
  }
  MainWindow window({shippedModel(), folder.path(), path});
  window.show();
  window.showWorkspace(MainWindow::RecipesWord);
  const auto answered = [&] { return window.recipes()->desk().state().open && !window.recipes()->desk().isBusy(); };
  if (!QTest::qWaitFor(answered, patience_ms)) qFatal("the library did not open");
  RecipeListModel* model = window.recipes()->find()->model();
  auto* field = window.findChild<QLineEdit*>(QStringLiteral("recipeSearch"));
  std::vector<double> untilList_ms, alone_ms;
  LibraryStore store(path.toStdString());
  WantedRecipes wanted;
  for (const QChar key : QStringLiteral("engine bracket maroon")) {
    QSignalSpy listed(model, &QAbstractItemModel::modelReset);
    const auto begin = Clock::now();
    QTest::keyClick(field, key.toLatin1());
    if (!waitFor(listed)) qFatal("nothing was listed");
    untilList_ms.push_back(milliseconds(Clock::now() - begin));
    if (!QTest::qWaitFor(answered, patience_ms)) qFatal("the library does not answer");
    wanted.query.text = field->text().toStdString();
    const auto alone = Clock::now();
    findRecipes(store, wanted);
    alone_ms.push_back(milliseconds(Clock::now() - alone));
  }
  std::printf("key to recipes listed, %u recipes: median %.1f ms, worst %.1f ms; the library's search alone %.1f ms\n", recipes,
              median(untilList_ms), *std::ranges::max_element(untilList_ms), median(alone_ms));
}

}  // namespace

int main(int argc, char** argv) {
  QStandardPaths::setTestModeEnabled(true);
  WatchedApplication app(argc, argv);
  const QString part = app.arguments().value(1);
  if (part == QLatin1String("--sample")) return openSample(app);
  if (part == QLatin1String("--nothing")) return openNothing(app);
  measureStart();
  measureEdits(app);
  measureSearch();
  return 0;
}
