// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/find_panel.h"

#include "core/files/library_file.h"
#include "ui/fields/problem_label.h"
#include "ui/library/library_desk.h"
#include "ui/library/recipe_words.h"
#include "ui/recipes/facet_button.h"
#include "ui/recipes/recipe_delegate.h"
#include "ui/recipes/recipe_list_model.h"
#include "ui/recipes/span_edit.h"

#include <QCheckBox>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QStackedWidget>

namespace bw {
namespace {

constexpr std::size_t mostNear = 30;

void take(const std::optional<Range>& range, std::optional<double>& from, std::optional<double>& to) {
  if (!range) return;
  constexpr double hair = 0.005;  // the library holds thicknesses in single precision, and people in three digits
  from = range->low * (1 - hair);
  to = range->high * (1 + hair);
}

}  // namespace

FindPanel::FindPanel(ProjectDocument& document, QWidget* parent)
    : QWidget(parent), m_document(document), m_model(new RecipeListModel(this)) {
  setObjectName(QStringLiteral("findPanel"));
  build();
  connectAll();
  enableFacets();
}

void FindPanel::connectAll() {
  connect(m_search, &QLineEdit::textChanged, this, [this] {
    if (m_nearest->isChecked()) m_nearest->setChecked(false);  // words look through the whole library
    emit wantedChanged();
  });
  for (FacetButton* facet : {m_metal, m_coating, m_machine, m_finish})
    connect(facet, &FacetButton::changed, this, &FindPanel::wantedChanged);
  for (SpanEdit* field : {m_coat, m_plate}) {
    connect(field, &SpanEdit::changed, this, &FindPanel::wantedChanged);
    connect(field, &SpanEdit::problem, m_problem, &ProblemLabel::say);
  }
  connect(m_proven, &QCheckBox::toggled, this, &FindPanel::wantedChanged);
  connect(m_nearest, &QCheckBox::toggled, this, &FindPanel::nearestToggled);
  connect(m_model, &RecipeListModel::moreWanted, this, &FindPanel::moreWanted);
  connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this, &FindPanel::currentChanged);
  for (QPushButton* button : {m_clear, m_unfilter}) connect(button, &QPushButton::clicked, this, &FindPanel::reset);
  connect(m_keep, &QPushButton::clicked, this, &FindPanel::keepWanted);
  connect(m_examples, &QPushButton::clicked, this, &FindPanel::examplesWanted);
  connect(&m_document, &ProjectDocument::changed, this, [this](Changes changes) {
    if (m_nearest->isChecked() && (changes & (Change::Part | Change::Coat | Change::Machines | Change::Plans | Change::Shown)) &&
        changes != Changes(Change::File)) {
      emit wantedChanged();
    }
  });
  m_search->installEventFilter(this);
}

/// From the search field the arrow keys go through the list.
bool FindPanel::eventFilter(QObject* watched, QEvent* event) {
  if (watched == m_search && event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Down && m_model->rowCount() > 0) {
      m_list->setFocus();
      if (!m_list->currentIndex().isValid()) m_list->setCurrentIndex(m_model->index(0));
      return true;
    }
    if (key == Qt::Key_Escape && !m_search->text().isEmpty()) {
      m_search->clear();
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

WantedRecipes FindPanel::wanted() const {
  WantedRecipes wanted;
  if (m_nearest->isChecked()) {
    NearestQuery& near = wanted.nearest.emplace(nearestTo(m_document.project(), m_document.plan().name));
    near.provenOnly = m_proven->isChecked();
    near.withdrawnToo = !near.provenOnly;  // "not with this beam" is worth knowing
    near.most = mostNear;
    return wanted;
  }
  RecipeQuery& query = wanted.query;
  query.text = m_search->text().toStdString();
  query.substrates = m_metal->chosen();
  query.coatings = m_coating->chosen();
  take(m_coat->span(), query.coatFrom_m, query.coatTo_m);
  take(m_plate->span(), query.plateFrom_m, query.plateTo_m);
  if (!m_machine->chosen().empty())
    query.machineKind = m_machine->chosen().front() == "pulsed" ? MachineKind::Pulsed : MachineKind::Continuous;
  if (!m_finish->chosen().empty()) {
    const std::string& word = m_finish->chosen().front();
    query.finish = word == "untouched" ? Finish::Untouched : word == "light-etch" ? Finish::LightEtch : Finish::Any;
  }
  query.provenOnly = m_proven->isChecked();
  return wanted;
}

bool FindPanel::narrowed() const {
  return !m_search->text().isEmpty() || !m_metal->chosen().empty() || !m_coating->chosen().empty() || !m_machine->chosen().empty() ||
         !m_finish->chosen().empty() || m_coat->span() || m_plate->span() || m_proven->isChecked();
}

void FindPanel::reset() {
  const QSignalBlocker quiet(this);
  m_search->clear();
  for (FacetButton* facet : {m_metal, m_coating, m_machine, m_finish}) facet->clear();
  for (SpanEdit* field : {m_coat, m_plate}) field->reset();
  m_proven->setChecked(false);
  m_nearest->setChecked(false);
  blockSignals(false);
  enableFacets();
  emit wantedChanged();
}

void FindPanel::nearestToggled(bool on) {
  enableFacets();
  if (on) {
    const QSignalBlocker quiet(m_search);
    m_search->clear();  // words would not count
  }
  emit wantedChanged();
}

void FindPanel::enableFacets() {
  const bool facets = !m_nearest->isChecked();
  for (QWidget* widget : std::initializer_list<QWidget*>{m_metal, m_coating, m_machine, m_finish, m_coat, m_plate})
    widget->setEnabled(facets);
}

void FindPanel::setLibrary(const LibraryState& state) {
  m_materials = state.materials;
  m_recipes = state.recipes;
  m_open = state.open;
  m_mayKeep = state.open && !state.readOnly;
  m_invented = state.invented;
  m_model->setNames(state.materials, state.machines);
  if (!m_open) show({});
}

void FindPanel::show(const FoundRecipes& found) {
  m_filling = true;
  m_model->show(found);
  const int row = m_model->rowOf(m_chosen);
  const bool another = found.skipped == 0;
  if (row >= 0) m_list->setCurrentIndex(m_model->index(row));
  m_filling = false;
  if (row < 0 && another) m_list->setCurrentIndex(m_model->rowCount() > 0 ? m_model->index(0) : QModelIndex());
  if (another) currentChanged();
  if (found.facets) showCounts(*found.facets);
  showSummary(found);
}

void FindPanel::showCounts(const RecipeFacets& facets) {
  const std::shared_ptr<const Library> materials = m_materials;
  m_metal->setCounts(facets.substrates,
                     [materials](const std::string& id) { return words::substrate(materials ? *materials : shippedLibrary(), id); });
  m_coating->setCounts(facets.coatings,
                       [materials](const std::string& id) { return words::coating(materials ? *materials : shippedLibrary(), id); });
  m_machine->setCounts(facets.machineKinds, words::facetMachineKind);
  m_finish->setCounts(facets.finishes, words::facetFinish);
  std::size_t proven = 0;
  for (const FacetCount& count : facets.states) {
    if (count.value == "proven") proven = count.count;
  }
  m_proven->setText(tr("Proven only (%1)").arg(proven));
}

void FindPanel::showSummary(const FoundRecipes& found) {
  m_clear->setVisible(narrowed() || m_nearest->isChecked());
  if (m_nearest->isChecked()) {
    m_summary->setText(tr("The nearest %1, nearest first").arg(found.total));
  } else if (found.total != m_recipes) {
    m_summary->setText(tr("%1 of %2 recipes").arg(found.total).arg(m_recipes));
  } else {
    m_summary->setText(m_recipes == 1 ? tr("1 recipe") : tr("%1 recipes").arg(m_recipes));
  }
  const bool empty = m_model->rowCount() == 0;
  m_facets->setVisible(m_recipes > 0);  // nothing to choose from
  m_pages->setCurrentIndex(empty ? 1 : 0);
  if (!empty) return;
  const bool bare = m_recipes == 0;
  m_unfilter->setVisible(!bare && m_open);
  if (!m_open) {
    m_emptyText->setText(tr("The library is not open; what to do stands above."));
  } else if (bare) {
    m_emptyText->setText(
        tr("No recipe is kept here yet. A recipe is what worked: part, coat, machine and settings, with what the trial "
           "patch showed. Keep the open plan as the first one, mark it as proven when its patch is done, and find it again "
           "when the next part looks like it."));
  } else {
    m_emptyText->setText(tr("No recipe fits all of this. Take a word or a condition away, or let the nearest ones be shown."));
  }
  m_keep->setVisible(m_mayKeep && bare);
  m_examples->setVisible(!m_invented && bare);
}

void FindPanel::addDetails(const std::map<std::string, RowDetail>& details) { m_model->addDetails(details); }
std::vector<std::string> FindPanel::withoutDetails() const { return m_model->withoutDetails(); }
bool FindPanel::isNearest() const { return m_nearest->isChecked(); }

void FindPanel::currentChanged() {
  if (m_filling) return;
  const QString id = m_list->currentIndex().data(RecipeListModel::IdRole).toString();
  m_chosen = id;
  emit chosenChanged();
}

void FindPanel::choose(const QString& id) {
  m_chosen = id;
  if (const int row = m_model->rowOf(id); row >= 0) m_list->setCurrentIndex(m_model->index(row));
}

std::optional<FoundRecipe> FindPanel::chosenFound() const {
  const int row = m_model->rowOf(m_chosen);
  return row < 0 ? std::nullopt : std::optional(m_model->item(row).found);
}

QWidget* FindPanel::searchField() const { return m_search; }

void FindPanel::focusSearch() {
  m_search->setFocus();
  m_search->selectAll();
}

}  // namespace bw
