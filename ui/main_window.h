// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/shop_stock.h"
#include "ui/document/project_files.h"
#include "ui/document/recovery.h"
#include "ui/runner/assessment_runner.h"

#include <QMainWindow>
#include <QPointer>
#include <QTimer>

#include <memory>
#include <vector>

class QLabel;
class QStackedWidget;

namespace bw {

class AnswerLine;
class BeforeBeamDialog;
class ExampleBand;
class MachineUpdateBand;
class PlanWorkspace;
class RecipesWorkspace;
class StartPage;
class TopBar;

/// The one window: it owns the document, the runner and the files, and connects them to what is seen. It computes and writes nothing.
class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  struct Options {
    AssessmentRunner::Model model = shippedModel();
    QString recoveryFolder;  // empty: the user's data folder
    QString libraryPath;     // empty: as last chosen, else in the user's data folder
  };

  explicit MainWindow(Options options, QWidget* parent = nullptr);
  ~MainWindow() override;

  /// Opens a file; true when it is open. What goes wrong is said in a dialog.
  bool openFile(const QString& path);
  /// Opens an example with its band; without a name the first.
  void openExample(const QString& file = {});
  /// Offers what a crash left behind; true when it was taken.
  bool offerRecovered();

  ProjectDocument& document() { return m_document; }
  ProjectFiles& files() { return m_files; }
  Recovery& recovery() { return m_recovery; }
  AssessmentRunner& runner() { return m_runner; }
  PlanWorkspace* plan() const { return m_plan; }
  RecipesWorkspace* recipes() const { return m_recipes; }
  enum Workspace { PlanWord, RecipesWord };
  void showWorkspace(int workspace);
  const std::shared_ptr<const Assessment>& assessment() const { return m_assessment; }
  const std::vector<Remedy>& remedies() const { return m_remedies; }
  /// Puts another in the place of the dialogs, for tests.
  void setAsker(Asker& asker);

 signals:
  /// The plots and the verdict show this result.
  void shown();

 protected:
  bool event(QEvent* event) override;
  void closeEvent(QCloseEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  void applyStyleSheet();
  void build(const Options& options);
  void buildStatusBar();
  void buildMenus();
  void connectDocument();
  void connectRunner();
  void connectBand();
  void connectShop();
  void setStock(const ShopStock& stock);
  void refreshUpdate();
  void showOwn(void (RecipesWorkspace::*page)());
  void documentChanged(Changes changes);
  void requestAssessment(bool another);
  void assessmentArrived(const std::shared_ptr<const Assessment>& assessment);
  void remediesArrived(const std::vector<Remedy>& remedies);
  void assessmentFailed(const QString& message);
  void setStale(bool stale);
  void applyRemedy(int index);
  void showStart();
  void showBeforeBeam();
  void showPage(QWidget* page);
  void startProject(Project project);
  void refreshTitle();
  void refreshStatus();

  std::unique_ptr<Asker> m_dialogs;
  Asker* m_asker;
  ProjectDocument m_document;
  ProjectFiles m_files;
  Recovery m_recovery;
  AssessmentRunner m_runner;
  QTimer m_veil;  // until a result that is being recomputed is dimmed
  std::shared_ptr<const Assessment> m_assessment;
  std::vector<Remedy> m_remedies;
  bool m_openingExample = false;
  bool m_bandWanted = false;
  bool m_bandDismissed = false;
  bool m_takingRemedy = false;
  QAction* m_undo;
  QAction* m_redo;
  TopBar* m_top = nullptr;
  ShopStock m_stock;
  ExampleBand* m_band = nullptr;
  MachineUpdateBand* m_update = nullptr;
  AnswerLine* m_answer = nullptr;
  QStackedWidget* m_pages = nullptr;
  PlanWorkspace* m_plan = nullptr;
  RecipesWorkspace* m_recipes = nullptr;
  StartPage* m_start = nullptr;
  QPointer<BeforeBeamDialog> m_beforeBeam;
  QLabel* m_saved = nullptr;
  QLabel* m_measured = nullptr;
};

}  // namespace bw
