// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes_workspace.h"

#include "core/library/library_path.h"
#include "ui/carry/carry_flow.h"
#include "ui/exchange/bundle_flow.h"
#include "ui/fields/division.h"
#include "ui/library/library_band.h"
#include "ui/own/own_library.h"
#include "ui/own/own_page.h"
#include "ui/recipes/example_recipes.h"
#include "ui/recipes/find_panel.h"
#include "ui/recipes/recipe_list_model.h"
#include "ui/start/example.h"
#include "ui/style/theme.h"

#include <QFileInfo>
#include <QScrollArea>
#include <QSettings>
#include <QShowEvent>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>

namespace bw {
namespace {

const QString pathKey = QStringLiteral("libraryPath");

QString libraryFilter() { return RecipesWorkspace::tr("Libraries (*.sqlite);;All files (*)"); }

}  // namespace

RecipesWorkspace::RecipesWorkspace(ProjectDocument& document, Options options, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_options(std::move(options)),
      m_desk(new LibraryDesk(m_options.library, this)),
      m_dialogs(new RecipeDialogs(document, *m_desk, this)),
      m_bundles(new BundleFlow(*m_desk, this)),
      m_carry(new CarryFlow(document, *m_desk, *m_dialogs, m_options.model, this)),
      m_band(new LibraryBand),
      m_find(new FindPanel(document)),
      m_page(new RecipePage),
      m_footer(new LibraryFooter),
      m_split(new QSplitter(Qt::Horizontal)),
      m_own(new OwnPage(m_asker, actionsOn(*m_desk, *m_bundles))),
      m_words(new QTabBar),
      m_pages(new QStackedWidget) {
  setObjectName(QStringLiteral("recipesWorkspace"));
  build();
  connectDesk();
  connectPanels();
  connectBand();
}

void RecipesWorkspace::build() {
  setFocusProxy(m_find->searchField());
  m_split->addWidget(m_find);
  m_split->addWidget(m_page);
  m_split->setHandleWidth(1);  // the ground shows as a hairline between the columns
  m_split->setChildrenCollapsible(false);
  m_split->setStretchFactor(1, 1);
  m_find->setMinimumWidth(340);
  m_page->setMinimumWidth(360);
  m_splitByHand = rememberDivision(*m_split, QStringLiteral("window/recipes"));
  connect(m_split, &QSplitter::splitterMoved, this, [this] { m_splitByHand = true; });
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(1);
  m_words->setObjectName(QStringLiteral("libraryWords"));
  m_words->setAccessibleName(tr("Recipes, or what I own"));
  m_words->addTab(tr("Recipes"));
  m_words->addTab(tr("What I own"));
  m_words->setDrawBase(false);
  m_words->setExpanding(false);
  connect(m_words, &QTabBar::currentChanged, this, &RecipesWorkspace::showPage);
  m_pages->addWidget(m_split);
  auto* own = new QScrollArea;  // a narrow window scrolls it, and may be narrow
  own->setFrameShape(QFrame::NoFrame);
  own->setWidgetResizable(true);
  own->setWidget(m_own);
  m_pages->addWidget(own);
  column->addWidget(m_band);
  column->addWidget(m_pages, 1);
  column->addWidget(m_footer);
  column->insertWidget(0, m_words);  // last of all in the order of the focus: the search comes first
}

void RecipesWorkspace::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  if (m_splitByHand) return;
  const int left = std::clamp(width() * 32 / 100, 340, 520);
  m_split->setSizes({left, width() - left});
}

void RecipesWorkspace::showOwn() { m_words->setCurrentIndex(1); }

void RecipesWorkspace::showNewMachine() {
  showOwn();
  m_own->addMachine();
}

void RecipesWorkspace::showShop() {
  showOwn();
  m_own->showTab(OwnPage::Shop);
}

void RecipesWorkspace::showPage(int page) {
  m_pages->setCurrentIndex(page);
  if (page == 1) refreshOwn();
}

/// Read only while it is looked at, or was left with something open.
void RecipesWorkspace::refreshOwn() {
  if (m_desk->state().open && (m_pages->currentIndex() == 1 || m_own->hasUnsaved()))
    askForThings(*m_desk, m_options.library, [this](const OwnedThings& things) { m_own->setThings(things); });
}

void RecipesWorkspace::refreshStock() {
  if (!m_desk->state().open || m_desk->state().invented) return;
  m_desk->ask(LibraryDesk::Lane::Stock, [this](LibraryStore& store) -> LibraryDesk::Delivery {
    return [this, stock = stockOf(store)] { emit stockChanged(stock); };
  });
}

void RecipesWorkspace::connectDesk() {
  connect(m_desk, &LibraryDesk::stateChanged, this, &RecipesWorkspace::stateChanged);
  connect(m_desk, &LibraryDesk::libraryChanged, this, [this] {
    search();
    refreshOwn();
    refreshStock();
    if (m_page->detail()) loadPage(m_page->detail()->isNewest() ? 0 : m_page->detail()->shown.number);
  });
  connect(m_desk, &LibraryDesk::failed, m_band, &LibraryBand::say);
  connect(m_desk, &LibraryDesk::copied, this, [this](const QString& from) {
    remember(m_desk->state().path);
    m_band->tell(
        tr("The library is now at %1. The old file stays at %2; delete it when nobody uses it any more.").arg(m_desk->state().path, from));
  });
  connect(m_dialogs, &RecipeDialogs::saved, this, [this](const QString& id) {
    m_find->choose(id);
    loadPage(0);
  });
  connect(m_carry, &CarryFlow::saved, m_dialogs, &RecipeDialogs::saved);
  connect(m_dialogs, &RecipeDialogs::applied, this, &RecipesWorkspace::applied);
  connect(m_own, &OwnPage::machineWanted, this, [this](const QString& id) {  // after the stock, which a save may have changed
    m_desk->ask(LibraryDesk::Lane::Each,
                [this, id](LibraryStore&) -> LibraryDesk::Delivery { return [this, id] { emit machineWanted(id); }; });
  });
  connect(m_bundles, &BundleFlow::told, m_band, &LibraryBand::tell);
}

void RecipesWorkspace::connectPanels() {
  connect(m_find, &FindPanel::wantedChanged, this, &RecipesWorkspace::search);
  connect(m_find, &FindPanel::moreWanted, this, &RecipesWorkspace::searchMore);
  connect(m_find, &FindPanel::chosenChanged, this, [this] { loadPage(0); });
  connect(m_find, &FindPanel::keepWanted, this, &RecipesWorkspace::keepPlan);
  connect(m_find, &FindPanel::examplesWanted, this, &RecipesWorkspace::openInvented);
  connect(m_page, &RecipePage::actionChosen, this, &RecipesWorkspace::act);
  connect(m_page, &RecipePage::versionChosen, this, &RecipesWorkspace::loadPage);
  connect(m_footer, &LibraryFooter::moveChosen, this, &RecipesWorkspace::move);
  connect(m_footer, &LibraryFooter::anotherChosen, this, &RecipesWorkspace::useAnother);
  connect(m_footer, &LibraryFooter::keepChosen, this, &RecipesWorkspace::keepPlan);
  m_bundles->connectTo(*m_find, *m_footer);
}

void RecipesWorkspace::connectBand() {
  connect(m_band, &LibraryBand::restoreChosen, this, [this](const QString& backup) {
    m_band->clear();
    m_desk->restore(backup);
  });
  connect(m_band, &LibraryBand::readOnlyChosen, this, [this] { openOwn(LibraryAccess::ReadOnly); });
  connect(m_band, &LibraryBand::anotherChosen, this, &RecipesWorkspace::useAnother);
  connect(m_band, &LibraryBand::againChosen, this, [this] { openOwn(); });
  connect(m_band, &LibraryBand::ownChosen, this, [this] { openOwn(); });
}

void RecipesWorkspace::setAsker(Asker& asker) {
  m_asker = &asker;
  m_dialogs->setAsker(asker);
  m_bundles->setAsker(asker);
}

void RecipesWorkspace::setAssessment(std::shared_ptr<const Assessment> assessment) { m_dialogs->setAssessment(std::move(assessment)); }

void RecipesWorkspace::keepPlan() {
  if (!m_opened) openOwn();
  m_dialogs->keepPlan();
}

QString RecipesWorkspace::ownPath() const {
  if (!m_path.isEmpty()) return m_path;
  if (!m_options.path.isEmpty()) return m_options.path;
  const QString chosen = QSettings().value(pathKey).toString();
  if (!chosen.isEmpty()) return chosen;
  try {
    return QString::fromStdU16String(defaultLibraryPath().u16string());
  } catch (const FileError&) {
    return {};
  }
}

void RecipesWorkspace::remember(const QString& path) {
  m_path = path;
  QSettings().setValue(pathKey, path);
}

void RecipesWorkspace::openOwn(LibraryAccess access) {
  m_opened = true;
  m_band->clear();
  const QString path = ownPath();
  if (path.isEmpty()) {
    m_band->say({LibraryTrouble::Io, tr("There is no folder for the library: neither XDG_DATA_HOME nor HOME names one."), true, {}, {}});
    return;
  }
  m_desk->open(path, access);
}

void RecipesWorkspace::openIfThere() {
  if (!m_opened && QFileInfo::exists(ownPath())) openOwn();
}

void RecipesWorkspace::openInvented() {
  m_opened = true;
  m_desk->openInvented(
      [folder = exampleFolder(), model = m_options.model](LibraryStore& store) { fillWithInvented(store, folder, model); });
}

void RecipesWorkspace::useAnother() {
  const QString path =
      m_asker->askNewFile(tr("Use another library, or begin a new one"), ownPath(), libraryFilter(), Asker::Existing::Allowed);
  if (path.isEmpty()) return;
  remember(QFileInfo(path).absoluteFilePath());
  openOwn();
}

void RecipesWorkspace::move() {
  const QString path = m_asker->askNewFile(tr("Move the library to"), ownPath(), libraryFilter(), Asker::Existing::Refused);
  if (!path.isEmpty()) m_desk->copyTo(QFileInfo(path).absoluteFilePath());
}

void RecipesWorkspace::stateChanged() {
  const LibraryState& state = m_desk->state();
  m_footer->setState(state);
  m_find->setLibrary(state);
  const QString why = state.invented ? tr("Invented examples are to read; go back to your library to keep your own.")
                                     : tr("The library may be read but not written.");
  m_page->setWritable(state.open && !state.readOnly, why);
  if (state.invented) {
    m_band->tellInvented();
  } else if (!state.notice.isEmpty()) {
    m_band->tell(state.notice);
  }
  if (!state.open) m_page->showNothing(false);
}

void RecipesWorkspace::search() { searchMore(0); }

void RecipesWorkspace::searchMore(std::size_t from) {
  WantedRecipes wanted = m_find->wanted();
  wanted.query.skip = from;
  m_desk->ask(LibraryDesk::Lane::Search, [this, wanted](LibraryStore& store) -> LibraryDesk::Delivery {
    return [this, found = findRecipes(store, wanted)] {
      m_find->show(found);
      wantDetails();
    };
  });
}

/// The rows come first, as quick as the search; their layers, machines and stale proofs a moment later.
void RecipesWorkspace::wantDetails() {
  const std::vector<std::string> ids = m_find->withoutDetails();
  if (ids.empty()) return;
  m_desk->ask(LibraryDesk::Lane::Rows, [this, ids](LibraryStore& store) -> LibraryDesk::Delivery {
    return [this, details = rowDetails(store, ids)] { m_find->addDetails(details); };
  });
}

void RecipesWorkspace::loadPage(int version) {
  const std::string id = m_find->chosen().toStdString();
  if (id.empty()) {
    m_desk->ask(LibraryDesk::Lane::Page, [](LibraryStore&) { return LibraryDesk::Delivery(); });  // what is under way is not wanted
    return m_page->showNothing(m_find->model()->rowCount() > 0);
  }
  m_desk->ask(LibraryDesk::Lane::Page, [this, id, version](LibraryStore& store) -> LibraryDesk::Delivery {
    const auto detail = std::make_shared<const RecipeDetail>(recipeDetail(store, id, version));
    return [this, detail] { m_page->show(detail, m_find->chosenFound()); };
  });
}

void RecipesWorkspace::act(RecipePage::Action action) {
  const std::shared_ptr<const RecipeDetail> detail = m_page->detail();
  if (!detail) return;
  switch (action) {
    case RecipePage::Action::Apply:
      return m_dialogs->apply(*detail);
    case RecipePage::Action::CarryOver:
      return m_carry->begin(*detail);
    case RecipePage::Action::Prove:
      return m_dialogs->prove(*detail);
    case RecipePage::Action::NewVersion:
      return m_dialogs->newVersion(*detail);
    case RecipePage::Action::Withdraw:
      return m_dialogs->withdraw(*detail);
    case RecipePage::Action::TakeBack:
      return m_dialogs->takeBack(*detail);
    case RecipePage::Action::AddPhoto:
      return m_dialogs->addPhoto(*detail);
    case RecipePage::Action::Give:
      return m_bundles->give(detail->recipe);
  }
}

void RecipesWorkspace::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  if (!m_opened) openOwn();
  m_desk->watch(true);
  m_find->focusSearch();
}

void RecipesWorkspace::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  m_desk->watch(false);
}

}  // namespace bw
