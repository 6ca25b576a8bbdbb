// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/materials_page.h"

#include "ui/fields/division.h"
#include "ui/own/entry_editor.h"
#include "ui/own/entry_list_model.h"
#include "ui/style/theme.h"

#include <QLineEdit>
#include <QListView>
#include <QScopedValueRollback>
#include <QVBoxLayout>

namespace bw {

MaterialsPage::MaterialsPage(EntryKind kind, Asker*& asker, const OwnActions& actions, QWidget* parent)
    : QSplitter(parent),
      m_kind(kind),
      m_model(new EntryListModel(this)),
      m_search(new QLineEdit),
      m_list(new QListView),
      m_editor(new EntryEditor(asker, actions)) {
  const bool coatings = kind == EntryKind::Coating;
  m_search->setPlaceholderText(coatings ? tr("Find a coating") : tr("Find a metal"));
  m_search->setAccessibleName(m_search->placeholderText());
  m_search->setClearButtonEnabled(true);
  m_list->setObjectName(coatings ? QStringLiteral("coatingList") : QStringLiteral("substrateList"));
  m_list->setAccessibleName(coatings ? tr("Coatings") : tr("Metals"));
  m_list->setModel(m_model);
  m_list->setWordWrap(true);
  m_list->setResizeMode(QListView::Adjust);
  m_list->setSpacing(1);
  m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* left = new QWidget;
  auto* column = new QVBoxLayout(left);
  column->setContentsMargins(0, 0, space::medium, 0);
  column->addWidget(m_search);
  column->addWidget(m_list, 1);
  addWidget(left);
  addWidget(m_editor);
  setChildrenCollapsible(false);
  left->setMinimumWidth(240);
  setStretchFactor(0, 0);
  setStretchFactor(1, 1);
  setSizes({290, 900});
  rememberDivision(*this, coatings ? QStringLiteral("window/coatings") : QStringLiteral("window/metals"));
  connect(m_search, &QLineEdit::textChanged, this, [this](const QString& words) {
    m_model->setSearch(words);
    const QScopedValueRollback quiet(m_quiet, true);
    m_list->setCurrentIndex(m_model->index(m_model->rowOf(m_id)));
  });
  connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this, [this](const QModelIndex& index) { chosen(index.row()); });
  connect(m_editor, &EntryEditor::wanted, this, [this](EntryKind, const QString& id) { choose(id.toStdString()); });
}

void MaterialsPage::setThings(const OwnedThings& things) {
  m_things = things;
  {
    const QScopedValueRollback quiet(m_quiet, true);
    m_model->setRecords(recordsOf(things, m_kind));
  }
  if (!m_wanted.empty() && m_model->rowOf(m_wanted) >= 0) m_id = std::exchange(m_wanted, {});
  if (m_id.empty() || !findRecord(things, m_kind, m_id)) m_id = m_model->idAt(0);
  const QScopedValueRollback quiet(m_quiet, true);
  m_list->setCurrentIndex(m_model->index(m_model->rowOf(m_id)));
  m_editor->open(things, m_kind, m_id);
}

void MaterialsPage::choose(const std::string& id) {
  if (m_model->rowOf(id) < 0) {
    m_wanted = id;
    return;
  }
  m_list->setCurrentIndex(m_model->index(m_model->rowOf(id)));
}

/// Back to where it was, unless what is open may be left.
void MaterialsPage::chosen(int row) {
  const std::string id = m_model->idAt(row);
  if (m_quiet || id.empty() || id == m_id) return;
  {
    const QScopedValueRollback quiet(m_quiet, true);
    m_list->setCurrentIndex(m_model->index(m_model->rowOf(m_id)));
  }
  m_editor->leave([this, id] {
    m_id = id;
    const QScopedValueRollback quiet(m_quiet, true);
    m_list->setCurrentIndex(m_model->index(m_model->rowOf(id)));
    m_editor->open(m_things, m_kind, id);
  });
}

}  // namespace bw
