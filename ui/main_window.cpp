// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/main_window.h"

#include "core/files/library_file.h"
#include "ui/document/edits.h"
#include "ui/document/measured.h"
#include "ui/fields/icon.h"
#include "ui/menus.h"
#include "ui/own/machine_update_band.h"
#include "ui/own/own_page.h"
#include "ui/own/shop_page.h"
#include "ui/plan/answer_line.h"
#include "ui/plan/before_beam_dialog.h"
#include "ui/plan/form.h"
#include "ui/plan/plan_workspace.h"
#include "ui/recipes_workspace.h"
#include "ui/start/example.h"
#include "ui/start/example_band.h"
#include "ui/start/start_page.h"
#include "ui/style/theme.h"
#include "ui/top_bar.h"
#include "ui/window_place.h"

#include <QAction>
#include <QApplication>
#include <QCloseEvent>
#include <QFile>
#include <QFileInfo>
#include <QMimeData>
#include <QStackedWidget>
#include <QStatusBar>
#include <QVBoxLayout>

namespace bw {
namespace {

QFrame* makeHairline() {
  auto* line = new QFrame;
  line->setFixedHeight(1);
  line->setAutoFillBackground(true);
  line->setBackgroundRole(QPalette::Mid);
  return line;
}

QString droppedFile(const QMimeData* data) {
  const auto urls = data->urls();
  return urls.size() == 1 && urls[0].isLocalFile() ? urls[0].toLocalFile() : QString();
}

}  // namespace

MainWindow::MainWindow(Options options, QWidget* parent)
    : QMainWindow(parent),
      m_dialogs(std::make_unique<DialogAsker>(this)),
      m_asker(m_dialogs.get()),
      m_files(m_document, *m_asker),
      m_recovery(m_document, options.recoveryFolder),
      m_runner(options.model),
      m_undo(m_document.undoStack().createUndoAction(this, tr("Undo"))),
      m_redo(m_document.undoStack().createRedoAction(this, tr("Redo"))) {
  setObjectName(QStringLiteral("mainWindow"));
  setAcceptDrops(true);
  applyStyleSheet();
  resize(1280, 800);
  setMinimumSize(880, 480);
  m_undo->setIcon(lineIcon(QStringLiteral("undo")));
  m_undo->setShortcut(QKeySequence::Undo);
  m_redo->setIcon(lineIcon(QStringLiteral("redo")));
  m_redo->setShortcuts({QKeySequence(QKeySequence::Redo), QKeySequence(Qt::CTRL | Qt::Key_Y)});
  build(options);
  buildStatusBar();
  buildMenus();
  connectDocument();
  connectRunner();
  connectBand();
  connectShop();
  documentChanged(Change::Everything);
}

MainWindow::~MainWindow() {
  delete m_beforeBeam;
  delete takeCentralWidget();  // the widgets hold references to the document, which is a member and would go first
}

void MainWindow::setAsker(Asker& asker) {
  m_asker = &asker;
  m_files.setAsker(asker);
  m_recipes->setAsker(asker);
}

void MainWindow::applyStyleSheet() {
  QFile file(QStringLiteral(":/style/frame.qss"));
  if (file.open(QIODevice::ReadOnly)) setStyleSheet(QString::fromUtf8(file.readAll()));
}

/// Under a style sheet Qt does not hand a new palette down to the widgets; laying the sheet anew does.
bool MainWindow::event(QEvent* event) {
  const bool handled = QMainWindow::event(event);
  if (event->type() == QEvent::ApplicationPaletteChange) {
    setStyleSheet({});
    setPalette(QApplication::palette());
    applyStyleSheet();
  }
  return handled;
}

void MainWindow::build(const Options& options) {
  m_top = new TopBar(m_document, m_asker, m_undo, m_redo);
  m_band = new ExampleBand;
  m_band->hide();
  m_update = new MachineUpdateBand;
  m_answer = new AnswerLine;
  m_plan = new PlanWorkspace(m_document);
  m_recipes = new RecipesWorkspace(m_document, {options.libraryPath, {}, options.model});
  m_recipes->setAsker(*m_asker);
  m_start = new StartPage;
  m_top->addWorkspace(tr("Plan"), tr("What will these settings do to this part?"));
  m_top->addWorkspace(tr("Recipes"), tr("What worked before?"));
  m_pages = new QStackedWidget;
  m_pages->addWidget(m_plan);
  m_pages->addWidget(m_recipes);
  m_pages->addWidget(m_start);
  auto* page = new QWidget;
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  for (QWidget* widget : {static_cast<QWidget*>(m_top), static_cast<QWidget*>(makeHairline()), static_cast<QWidget*>(m_band),
                          static_cast<QWidget*>(m_update), static_cast<QWidget*>(m_answer), static_cast<QWidget*>(makeHairline())}) {
    column->addWidget(widget);
  }
  column->addWidget(m_pages, 1);
  setCentralWidget(page);
}

void MainWindow::buildStatusBar() {
  m_saved = new QuietLabel;
  m_saved->setObjectName(QStringLiteral("savedState"));
  m_measured = new QuietLabel;
  m_measured->setObjectName(QStringLiteral("measuredCount"));
  statusBar()->setSizeGripEnabled(false);
  statusBar()->setContentsMargins(space::large, 0, space::large, 0);
  statusBar()->addWidget(m_saved);
  statusBar()->addPermanentWidget(m_measured);
  auto* model = new QuietLabel(tr("Model version %1").arg(QLatin1String(modelVersion)));
  model->setContentsMargins(space::wide, 0, 0, 0);
  statusBar()->addPermanentWidget(model);
}

void MainWindow::buildMenus() {
  Menus menus(*this);
  const auto file = menus.addFile(m_files, [this] { showStart(); });
  menus.addEdit(m_undo, m_redo, [this] { showBeforeBeam(); });
  menus.addView([this](int plot) {
    showWorkspace(PlanWord);
    m_plan->showPlot(plot);
  });
  menus.addWorkspaces([this](int workspace) { showWorkspace(workspace); }, [this] { m_recipes->keepPlan(); });
  menus.addShop([this] { showOwn(&RecipesWorkspace::showOwn); }, [this] { showOwn(&RecipesWorkspace::showShop); });
  menus.addHelp([this](const QString& title, const QString& text) { m_asker->tell(title, text); },
                [this](const QString& example) { openExample(example); });
  m_top->addPartActions(file);
  m_top->addPartActions({menus.examples()});
}

void MainWindow::connectDocument() {
  connect(&m_document, &ProjectDocument::changed, this, &MainWindow::documentChanged);
  connect(qApp, &QApplication::focusChanged, &m_document, &ProjectDocument::closeStep);
  connect(m_plan, &PlanWorkspace::remedyChosen, this, &MainWindow::applyRemedy);
  connect(m_plan, &PlanWorkspace::sceneChosen, this, [this] { requestAssessment(false); });
  connect(m_top, &TopBar::workspaceChosen, this, &MainWindow::showWorkspace);
  connect(m_top, &TopBar::ownWanted, this, [this] {
    showWorkspace(RecipesWord);
    m_recipes->showOwn();
  });
  connect(m_answer, &AnswerLine::beforeBeamWanted, this, &MainWindow::showBeforeBeam);
  connect(m_recipes, &RecipesWorkspace::applied, this, [this] { showWorkspace(PlanWord); });
}

void MainWindow::connectRunner() {
  // Dimmed only where the new result lets one wait; a veil that flickers with every keystroke would tell nothing and cost a repaint.
  m_veil.setSingleShot(true);
  m_veil.setInterval(150);
  connect(&m_veil, &QTimer::timeout, this, [this] { setStale(m_runner.isBusy()); });
  connect(&m_runner, &AssessmentRunner::started, this, [this] {
    m_plan->setOutdated();
    m_veil.start();
  });
  connect(&m_runner, &AssessmentRunner::doseKnown, m_plan, &PlanWorkspace::setDose);
  connect(&m_runner, &AssessmentRunner::assessed, this, &MainWindow::assessmentArrived);
  connect(&m_runner, &AssessmentRunner::remediesFound, this, &MainWindow::remediesArrived);
  connect(&m_runner, &AssessmentRunner::failed, this, &MainWindow::assessmentFailed);
}

void MainWindow::connectBand() {
  connect(m_band, &ExampleBand::mendChosen, this, [this] {
    if (m_assessment) applyRemedy(firstRemedy(*m_assessment, m_remedies));
  });
  connect(m_band, &ExampleBand::placeChosen, m_plan, &PlanWorkspace::showCheck);
  connect(m_band, &ExampleBand::startChosen, this, &MainWindow::showStart);
  connect(m_band, &ExampleBand::openChosen, &m_files, [this] { m_files.open(); });
  connect(m_band, &ExampleBand::dismissed, this, [this] {
    m_bandWanted = false;
    m_bandDismissed = true;
    m_band->hide();
  });
  connect(m_start, &StartPage::ready, this, &MainWindow::startProject);
  connect(m_start, &StartPage::cancelled, this, [this] { showPage(m_plan); });
}

void MainWindow::showOwn(void (RecipesWorkspace::*page)()) {
  showWorkspace(RecipesWord);
  (m_recipes->*page)();
}

void MainWindow::connectShop() {
  connect(m_top, &TopBar::newMachineWanted, this, [this] { showOwn(&RecipesWorkspace::showNewMachine); });
  connect(m_recipes, &RecipesWorkspace::stockChanged, this, &MainWindow::setStock);
  connect(m_recipes, &RecipesWorkspace::machineWanted, this, [this](const QString& id) {
    m_top->chooseMachine(id.toStdString());
    showWorkspace(PlanWord);
  });
  connect(m_update, &MachineUpdateBand::taken, this, [this](const MachineUpdate& update) { edits::updateMachine(m_document, update); });
  connect(m_update, &MachineUpdateBand::declined, this, [this](const MachineUpdate& update) { edits::declineUpdate(m_document, update); });
  QTimer::singleShot(0, m_recipes, &RecipesWorkspace::openIfThere);  // the window comes first
}

void MainWindow::setStock(const ShopStock& stock) {
  m_stock = stock;
  m_top->setStock(stock);
  m_start->setStock(stock);
  refreshUpdate();
}

/// One at a time, that of the machine shown first.
void MainWindow::refreshUpdate() {
  const auto updates = machineUpdates(m_document.project(), m_stock.machines);
  auto first = m_document.machine()
                   ? std::ranges::find(updates, m_document.machine()->id, [](const MachineUpdate& one) { return one.machine.id; })
                   : updates.end();
  if (first == updates.end()) first = updates.begin();
  m_update->setUpdate(updates.empty() ? std::nullopt : std::optional(*first));
  m_update->setVisible(m_update->hasUpdate() && m_pages->currentWidget() == m_plan);
}

void MainWindow::documentChanged(Changes changes) {
  refreshTitle();
  refreshStatus();
  if (changes == Changes(Change::File) || changes == Changes(Change::Name)) return;
  if (changes & Change::Shop) m_answer->setProject(m_document.project());
  if (changes & (Change::Machines | Change::Plans | Change::Shown)) refreshUpdate();
  const bool another = changes == Changes(Change::Everything);
  if (another) {
    m_bandWanted = m_openingExample;
    m_bandDismissed = false;
    m_band->setExample(m_openingExample);
    showPage(m_plan);
  }
  if (!m_takingRemedy) m_band->setDone({});  // undone, or another plan: what was done is no longer what is seen
  m_band->setAssessment(nullptr);
  m_remedies.clear();
  m_plan->setRemedies({});
  requestAssessment(another);
}

void MainWindow::requestAssessment(bool another) {
  m_recipes->setAssessment(nullptr);
  Snapshot snapshot{std::make_shared<const Project>(m_document.project()), m_document.plan().name, m_plan->scene(), another};
  for (const ShopMachine& card : m_stock.machines) snapshot.shop.push_back(card.machine);
  m_runner.request(std::move(snapshot));
}

void MainWindow::assessmentArrived(const std::shared_ptr<const Assessment>& assessment) {
  m_assessment = assessment;
  m_remedies.clear();
  m_answer->setProblem({});
  m_answer->setAssessment(assessment);
  m_plan->setAssessment(assessment, m_runner.isLookingDeeper());
  m_plan->setRemedies({});
  m_band->setAssessment(assessment);
  if (m_band->isFailing() && !m_bandDismissed) m_bandWanted = true;  // and it stays when nothing fails any more
  m_band->setVisible(m_bandWanted && m_pages->currentWidget() == m_plan);
  if (!m_runner.isBusy()) {
    if (!m_runner.isLookingDeeper()) m_recipes->setAssessment(assessment);
    m_veil.stop();
    setStale(false);
  }
  emit shown();
}

void MainWindow::setStale(bool stale) {
  m_plan->setStale(stale);
  m_answer->setStale(stale);
}

void MainWindow::remediesArrived(const std::vector<Remedy>& remedies) {
  m_remedies = remedies;
  m_plan->setRemedies(remedies);
  const int first = firstRemedy(*m_assessment, remedies);
  const Remedy* next = first < 0 ? nullptr : &remedies[static_cast<std::size_t>(first)];
  m_band->setNext(next ? QString::fromStdString(next->label) : QString(), next ? next->check : std::string());
  if (m_band->hasDone() && m_pages->currentWidget() == m_plan) m_plan->showCheck(m_band->place());
}

void MainWindow::assessmentFailed(const QString& message) {
  m_veil.stop();
  m_answer->setProblem(message);
  m_band->setFailed();
  m_plan->setOutdated();
  m_plan->setStale(true);
}

void MainWindow::applyRemedy(int index) {
  if (index < 0 || static_cast<std::size_t>(index) >= m_remedies.size()) return;
  const Remedy remedy = m_remedies[static_cast<std::size_t>(index)];
  m_takingRemedy = true;
  edits::applyRemedy(m_document, remedy);
  m_takingRemedy = false;
  m_band->setDone(QString::fromStdString(remedy.label));
}

void MainWindow::showStart() {
  if (!m_files.mayLeave()) return;
  m_start->reset(m_document.project());
  showPage(m_start);
}

void MainWindow::showBeforeBeam() {
  if (m_beforeBeam == nullptr) m_beforeBeam = new BeforeBeamDialog(m_document, this);
  m_beforeBeam->show();
  m_beforeBeam->raise();
  m_beforeBeam->activateWindow();
}

void MainWindow::showPage(QWidget* page) {
  const bool isPlan = page == m_plan;
  m_answer->setVisible(page != m_start);
  m_band->setVisible(isPlan && m_bandWanted);
  m_top->showWorkspace(page == m_recipes ? RecipesWord : PlanWord);
  m_pages->setCurrentWidget(page);
  m_update->setVisible(isPlan && m_update->hasUpdate());
  page->setFocus();
}

void MainWindow::showWorkspace(int workspace) { showPage(workspace == RecipesWord ? static_cast<QWidget*>(m_recipes) : m_plan); }

void MainWindow::startProject(Project project) {
  m_document.replace(std::move(project), {});
  m_document.setNeverSaved();
}

bool MainWindow::openFile(const QString& path) { return m_files.open(path); }

void MainWindow::openExample(const QString& file) {
  if (!m_files.mayLeave()) return;
  auto example = loadExample(file);
  if (!example) {
    showStart();
    return;
  }
  m_band->setDone({});
  m_openingExample = true;
  m_document.replace(std::move(*example), {});
  m_openingExample = false;
}

bool MainWindow::offerRecovered() {
  auto left = m_recovery.findLeftBehind();
  if (!left) return false;
  const QString name = QString::fromStdString(left->project.name);
  if (!m_asker->askYes(tr("Unsaved work was found"),
                       tr("The program ended without saving “%1”. Its last state was kept.").arg(name), tr("Open it"), tr("Throw it away"))) {
    m_recovery.dropLeftBehind();
    return false;
  }
  m_document.replace(std::move(left->project), left->filePath);
  m_document.setNeverSaved();
  return true;
}

void MainWindow::refreshTitle() {
  const QString path = m_document.filePath();
  const QString name = path.isEmpty() ? QString::fromStdString(m_document.project().name) : QFileInfo(path).fileName();
  setWindowTitle(tr("%1[*] – Barewright").arg(name));
  setWindowModified(m_document.isModified());
}

void MainWindow::refreshStatus() {
  const QString path = m_document.filePath();
  if (m_document.isModified()) {
    m_saved->setText(tr("Not saved"));
  } else {
    m_saved->setText(path.isEmpty() ? tr("Nothing to save yet") : tr("Saved"));
  }
  m_saved->setToolTip(path);
  const MeasuredCount count = countMeasured(m_document.project(), m_document.machine());
  m_measured->setText(tr("%1 of %2 inputs measured").arg(count.measured).arg(count.all));
}

void MainWindow::closeEvent(QCloseEvent* event) {
  if (QWidget* focus = QApplication::focusWidget()) focus->clearFocus();  // takes over what is half typed
  const auto mayDropOwn = [this] {
    return !m_recipes->own()->hasUnsaved() ||
           m_asker->askYes(tr("Changes to what you own"), tr("A machine, coating or metal has changes that are not saved in the library."),
                           tr("Leave without them"), tr("Stay"));
  };
  if (!mayDropOwn() || !m_files.mayLeave()) {
    event->ignore();
    return;
  }
  m_recipes->own()->shop()->flush();
  rememberPlace(*this);
  m_recovery.discard();
  event->accept();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
  if (!droppedFile(event->mimeData()).isEmpty()) event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) { openFile(droppedFile(event->mimeData())); }

}  // namespace bw
