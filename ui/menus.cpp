// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/menus.h"

#include "ui/start/example.h"
#include "ui/style/theme.h"

#include <QActionGroup>
#include <QApplication>
#include <QFileInfo>
#include <QMenu>
#include <QMenuBar>
#include <QSettings>

namespace bw {
namespace {

const QString themeKey = QStringLiteral("theme");

struct MenuWords {
  Q_DECLARE_TR_FUNCTIONS(MenuWords)
};

QString cautions() {
  return MenuWords::tr(
      "A prediction is not a permission. The model screens settings; a proof patch on scrap or a hidden spot decides.\n\n"
      "Everyone in the room wears eyewear for the wavelength, or the beam stays off. Extraction runs before the beam does. Old paint may "
      "hold lead, chromate or asbestos: test first. Look behind the metal: foam, wax, wood, fuel and closed cavities burn or burst. "
      "Never collect iron and aluminium dust in one filter.\n\n"
      "Local codes, your laser safety officer and licensed practice come before anything shown here.");
}

QString about() {
  return MenuWords::tr(
             "Barewright %1 plans the stripping of coated metal parts with handheld lasers, before the beam is on.\n\n"
             "Free software under the GNU General Public License, version 3 or later; it comes without any warranty.\n"
             "It uses Qt and QCustomPlot.")
      .arg(QCoreApplication::applicationVersion());
}

void fillRecent(QMenu* menu, ProjectFiles& files) {
  menu->clear();
  for (const QString& path : files.recent()) {
    QAction* action = menu->addAction(QFileInfo(path).fileName(), &files, [&files, path] { files.open(path); });
    action->setToolTip(path);
    action->setEnabled(QFileInfo::exists(path));
  }
  menu->setToolTipsVisible(true);
  menu->addSeparator();
  menu->addAction(MenuWords::tr("Forget these"), &files, &ProjectFiles::forgetRecent)->setEnabled(!files.recent().isEmpty());
}

}  // namespace

QList<QAction*> Menus::addFile(ProjectFiles& files, const std::function<void()>& startNew) {
  QMenu* menu = m_file = m_window.menuBar()->addMenu(MenuWords::tr("&File"));
  QAction* fresh = menu->addAction(MenuWords::tr("&New: start my part"), QKeySequence::New, &m_window, startNew);
  QAction* open = menu->addAction(MenuWords::tr("&Open…"), QKeySequence::Open, &files, [&files] { files.open(); });
  QMenu* recent = menu->addMenu(MenuWords::tr("Open &recent"));
  fillRecent(recent, files);
  QObject::connect(&files, &ProjectFiles::recentChanged, recent, [recent, &files] { fillRecent(recent, files); });
  menu->addSeparator();
  const auto commitTyped = [] {
    // What is half typed in a field belongs to what is saved.
    if (QWidget* focus = QApplication::focusWidget()) {
      focus->clearFocus();
      focus->setFocus();
    }
  };
  menu->addAction(MenuWords::tr("&Save"), QKeySequence::Save, &files, [&files, commitTyped] {
    commitTyped();
    files.save();
  });
  menu->addAction(MenuWords::tr("Save &as…"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_S), &files, [&files, commitTyped] {
    commitTyped();
    files.saveAs();
  });
  menu->addSeparator();
  menu->addAction(MenuWords::tr("&Quit"), QKeySequence(Qt::CTRL | Qt::Key_Q), &m_window, &QWidget::close);
  return {fresh, open, recent->menuAction()};
}

void Menus::addEdit(QAction* undo, QAction* redo, const std::function<void()>& beforeBeam) {
  QMenu* menu = m_window.menuBar()->addMenu(MenuWords::tr("&Edit"));
  menu->addAction(undo);
  menu->addAction(redo);
  menu->addSeparator();
  menu->addAction(MenuWords::tr("&Before the beam is on…"), QKeySequence(Qt::CTRL | Qt::Key_B), &m_window, beforeBeam);
}

void Menus::addView(const std::function<void(int plot)>& showPlot) {
  QMenu* menu = m_view = m_window.menuBar()->addMenu(MenuWords::tr("&View"));
  const QStringList plots = {MenuWords::tr("Dose map"), MenuWords::tr("Across the swath"), MenuWords::tr("Down through the coat"),
                             MenuWords::tr("Heat")};
  for (int index = 0; index < plots.size(); ++index) {
    // The plots own the keys 1 to 4; here they are only said.
    menu->addAction(plots[index] + QStringLiteral("\t%1").arg(index + 1), &m_window, [showPlot, index] { showPlot(index); });
  }
  menu->addSeparator();
  auto* themes = new QActionGroup(&m_window);
  const QString chosen = QSettings().value(themeKey, QStringLiteral("system")).toString();
  const auto addTheme = [&](const QString& id, const QString& name) {
    QAction* action = menu->addAction(name, &m_window, [id] {
      QSettings().setValue(themeKey, id);
      applyChosenTheme();
    });
    action->setCheckable(true);
    action->setChecked(id == chosen);
    action->setObjectName(QStringLiteral("theme-") + id);
    themes->addAction(action);
  };
  addTheme(QStringLiteral("light"), MenuWords::tr("Light"));
  addTheme(QStringLiteral("dark"), MenuWords::tr("Dark"));
  addTheme(QStringLiteral("system"), MenuWords::tr("As the system"));
}

void Menus::addWorkspaces(const std::function<void(int workspace)>& show, const std::function<void()>& keepPlan) {
  QAction* first = m_view->actions().value(0);
  QAction* plan = new QAction(MenuWords::tr("&Plan"), &m_window);
  plan->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_1));
  QAction* recipes = new QAction(MenuWords::tr("&Recipes"), &m_window);
  recipes->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_5));
  QObject::connect(plan, &QAction::triggered, &m_window, [show] { show(0); });
  QObject::connect(recipes, &QAction::triggered, &m_window, [show] { show(1); });
  m_view->insertActions(first, {plan, recipes});
  m_view->insertSeparator(first);
  QAction* keep = new QAction(MenuWords::tr("&Keep this plan as a recipe…"), &m_window);
  keep->setShortcut(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_K));
  QObject::connect(keep, &QAction::triggered, &m_window, keepPlan);
  QAction* last = m_file->actions().last();  // quitting
  m_file->insertAction(last, keep);
  m_file->insertSeparator(last);
}

void Menus::addShop(const std::function<void()>& showOwn, const std::function<void()>& showShop) {
  QAction* below = m_view->actions().value(2);  // Plan and Recipes come first
  QAction* own = new QAction(MenuWords::tr("What I &own"), &m_window);
  QAction* shop = new QAction(MenuWords::tr("My &shop"), &m_window);
  own->setObjectName(QStringLiteral("whatIOwn"));
  shop->setObjectName(QStringLiteral("myShop"));
  QObject::connect(own, &QAction::triggered, &m_window, showOwn);
  QObject::connect(shop, &QAction::triggered, &m_window, showShop);
  m_view->insertActions(below, {own, shop});
}

void Menus::addHelp(const std::function<void(const QString& title, const QString& text)>& tell,
                    const std::function<void(const QString& file)>& openExample) {
  QMenu* menu = m_window.menuBar()->addMenu(MenuWords::tr("&Help"));
  QMenu* examples = menu->addMenu(MenuWords::tr("Open an &example"));
  for (const QString& file : exampleFiles()) examples->addAction(exampleTitle(file), &m_window, [openExample, file] { openExample(file); });
  m_examples = examples->menuAction();
  m_examples->setObjectName(QStringLiteral("examples"));
  menu->addAction(MenuWords::tr("&Cautions"), &m_window, [tell] { tell(MenuWords::tr("Cautions"), cautions()); });
  menu->addAction(MenuWords::tr("&About Barewright"), &m_window, [tell] { tell(MenuWords::tr("About Barewright"), about()); });
}

void applyChosenTheme() {
  static const bool systemIsDark = isDark(QApplication::palette());  // before ours is laid over it
  const QString chosen = QSettings().value(themeKey, QStringLiteral("system")).toString();
  const bool dark = chosen == QStringLiteral("dark") || (chosen == QStringLiteral("system") && systemIsDark);
  applyTheme(dark ? Theme::Dark : Theme::Light);
}

}  // namespace bw
