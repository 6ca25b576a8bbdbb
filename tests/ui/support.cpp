// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "tests/support/catch.h"
#include "ui/fields/quantity_field.h"

#include <QApplication>
#include <QLineEdit>
#include <QScrollArea>
#include <QtTest>

namespace bw::test {
namespace {

template <typename T>
std::optional<T> take(std::deque<T>& answers) {
  if (answers.empty()) return std::nullopt;
  T answer = answers.front();
  answers.pop_front();
  return answer;
}

}  // namespace

void useStableLook(Theme theme) {
  applyTheme(theme);
  QFont font(QStringLiteral("DejaVu Sans"));
  font.setPixelSize(space::bodyFont);
  QApplication::setFont(font);
}

UnsavedAnswer ScriptedAsker::askUnsaved(const QString&) {
  ++unsavedAsked;
  return take(unsaved).value_or(UnsavedAnswer::Cancel);
}
QString ScriptedAsker::askOpenPath(const QString&) { return take(paths).value_or(QString()); }
QString ScriptedAsker::askSavePath(const QString&) { return take(paths).value_or(QString()); }
QString ScriptedAsker::askFile(const QString&, const QString&, const QString&) { return take(paths).value_or(QString()); }
QString ScriptedAsker::askNewFile(const QString&, const QString&, const QString&, Existing) { return take(paths).value_or(QString()); }
std::optional<QString> ScriptedAsker::askText(const QString&, const QString&, const QString&) { return take(texts); }
bool ScriptedAsker::askYes(const QString&, const QString&, const QString&, const QString&) { return take(yes).value_or(false); }
void ScriptedAsker::tell(const QString& title, const QString& sentence) { told << title + QStringLiteral(": ") + sentence; }

AssessmentRunner::Model quickModel() {
  return {[](const Snapshot& snapshot, std::stop_token, const TakeEarly&) {
            const Plan* plan = findPlan(*snapshot.project, snapshot.planName);
            if (!plan) throw Unusable("there is no such plan");
            Assessment assessment;
            assessment.plan = plan->name;
            assessment.answer = "passes: " + std::to_string(plan->settings.passes);
            assessment.verdict.push_back(
                {"evenness", "Even?", plan->settings.beamOffInTurns ? Status::Meets : Status::Fails, "message", "remedy"});
            return assessment;
          },
          [](const Snapshot& snapshot, const Assessment&, std::stop_token) {
            Remedy remedy;
            remedy.check = "evenness";
            remedy.label = "Beam off in turns";
            remedy.settings = findPlan(*snapshot.project, snapshot.planName)->settings;
            remedy.settings.beamOffInTurns = true;
            return std::vector<Remedy>{remedy};
          }};
}

QString dataFile(const QString& name) { return QStringLiteral(BAREWRIGHT_TEST_DATA "/") + name; }

Project panel() { return openProject(dataFile(QStringLiteral("panel.bwright")).toStdString(), shippedLibrary()); }

Window::Window(AssessmentRunner::Model model) {
  m_window = std::make_unique<MainWindow>(MainWindow::Options{std::move(model), m_folder.path(), libraryPath()});
  m_window->setAsker(asker);
  m_window->document().replace(panel(), {});
  m_window->show();
  m_window->activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(m_window.get()));
  settle();
}

Window::~Window() = default;

void Window::settle() {
  const auto idle = [this] { return !m_window->runner().isBusy(); };
  REQUIRE(QTest::qWaitFor(idle, 90000));
  QCoreApplication::processEvents();
}

void Window::crash() {
  m_window->recovery().flush();
  m_window.reset();
}

QuantityField* Window::field(const char* name) {
  auto* field = find<QuantityField>(name);
  REQUIRE(field);
  return field;
}

void Window::type(QuantityField* field, const QString& text) {
  if (auto* area = find<QScrollArea>("inputs")) area->ensureWidgetVisible(field);
  QTest::mouseClick(field->edit(), Qt::LeftButton);
  field->edit()->selectAll();
  QTest::keyClicks(field->edit(), text);
  QTest::keyClick(field->edit(), Qt::Key_Return);
}

void Window::click(QWidget* button) {
  REQUIRE(button);
  QTest::mouseClick(button, Qt::LeftButton);
}

}  // namespace bw::test
