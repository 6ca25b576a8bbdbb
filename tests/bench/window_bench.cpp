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

struct Waits {
  std::vector<double> untilPlots_ms;
  std::vector<double> untilPainted_ms;
  std::vector<double> threadBusy_ms;
  std::vector<double> longestEvent_ms;
};

/// What a person changes most, a little more each time.
struct PersonsEdit {
  const char* name;
  std::function<void(ProjectDocument&, int time)> make;
};

std::vector<PersonsEdit> personsEdits() {
  const auto setting = [](double Settings::*field, double step) {
    return [field, step](ProjectDocument& document, int) {
      edits::setSetting(document, field, QStringLiteral("edit"),
                        stepsOf(document.project().plans.front()).front().settings.*field * (1 + step));
    };
  };
  const auto layer = [](const ProjectDocument& document) { return document.project().coat.front(); };
  return {
      {"power", setting(&Settings::powerFraction, -0.01)},
      {"repetition rate", setting(&Settings::repetitionRate_Hz, -0.01)},
      {"line spacing", setting(&Settings::lineSpacing_m, 0.01)},
      {"frame", setting(&Settings::width_m, -0.01)},
      {"travel", setting(&Settings::travelSpeed_m_s, 0.01)},
      {"step-over", setting(&Settings::stepOver_m, -0.01)},
      {"passes", [](ProjectDocument& document, int time) { edits::setPasses(document, 2 + time % 3); }},
      {"pause",
       [](ProjectDocument& document, int time) { edits::setSetting(document, &Settings::pause_s, QStringLiteral("pause"), 10 + time); }},
      {"layer thickness", [layer](ProjectDocument& document,
                                  int) { edits::setLayerThickness(document, 0, layer(document).thickness_m * 1.01, KnownFrom::Gauge); }},
      {"layer kind", [layer](ProjectDocument& document, int) {
         const std::string other = document.project().coat.back().coating;
         edits::setLayerCoating(document, 0, layer(document).coating == other ? document.project().coat[1].coating : other);
       }}};
}

/// One edit, and what follows until the window is at rest with the new result, while the search for remedies of the one before may still
/// run.
void follow(WatchedApplication& app, MainWindow& window, const std::function<void()>& edit, Waits& waits) {
  QSignalSpy shown(&window, &MainWindow::shown);
  app.watch();
  const auto begin = Clock::now();
  const double busyBefore_s = threadTime_s();
  Clock::time_point plotted;
  for (QCustomPlot* plot : window.findChildren<QCustomPlot*>()) {
    QObject::connect(plot, &QCustomPlot::afterReplot, &shown, [&plotted] { plotted = Clock::now(); });
  }
  edit();
  if (!waitFor(shown)) qFatal("an edit brought no assessment");
  const Painted painted = app.settled();
  waits.untilPlots_ms.push_back(milliseconds(plotted - begin));
  waits.untilPainted_ms.push_back(milliseconds(painted.at - begin));
  waits.threadBusy_ms.push_back(1e3 * (painted.threadTime_s - busyBefore_s));
  waits.longestEvent_ms.push_back(1e3 * painted.longestEvent_s);
}

void measureEdits(WatchedApplication& app) {
  const Project project = openProject(sample.toStdString(), shippedLibrary());
  const double alone = medianOf(5, [&] { return assessment_ms(project); });
  QTemporaryDir folder;
  MainWindow window({shippedModel(), folder.path(), folder.filePath(QStringLiteral("library.sqlite"))});
  QSignalSpy shown(&window, &MainWindow::shown);
  window.show();
  if (!window.openFile(sample) || !waitFor(shown)) qFatal("the sample did not open");
  app.settled();

  for (const PersonsEdit& edit : personsEdits()) {
    Waits waits;
    for (int i = 0; i < 7; ++i)
      follow(
          app, window, [&] { edit.make(window.document(), i); }, waits);
    const double until = median(waits.untilPlots_ms);
    std::printf(
        "edit of %s to plots refreshed: ours %.1f ms, the calculation from nothing %.1f ms, ours / calculation %.2f; window at rest %.1f "
        "ms; interface's thread busy %.1f ms, longest single event %.1f ms\n",
        edit.name, until, alone, until / alone, median(waits.untilPainted_ms), median(waits.threadBusy_ms), median(waits.longestEvent_ms));
  }
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
