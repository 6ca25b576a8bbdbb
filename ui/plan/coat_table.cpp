// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/coat_table.h"

#include "core/files/library_file.h"
#include "ui/document/edits.h"
#include "ui/fields/icon.h"
#include "ui/models/coating_model.h"
#include "ui/plan/form.h"
#include "ui/plan/layer_row.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QToolButton>

#include <algorithm>

namespace bw {

CoatTable::CoatTable(ProjectDocument& document, QWidget* parent)
    : QWidget(parent), m_document(document), m_coatings(new CoatingModel(this)),
      m_empty(new QuietLabel(tr("No layers yet. Add the one seen first, from the top."))), m_column(new QVBoxLayout),
      m_up(makeButton("moveLayerUp", QStringLiteral("up"), tr("Move the chosen layer up"), &CoatTable::moveUp)),
      m_down(makeButton("moveLayerDown", QStringLiteral("down"), tr("Move the chosen layer down"), &CoatTable::moveDown)),
      m_remove(makeButton("removeLayer", QStringLiteral("remove"), tr("Remove the chosen layer"), &CoatTable::removeLayer)) {
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(0);
  auto* add = makeButton("addLayer", QStringLiteral("add"), tr("Add a layer below the chosen one"), &CoatTable::addLayer);
  add->setText(tr("Layer"));
  add->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  buttons->addWidget(add);
  buttons->addStretch();
  for (auto* button : {m_up, m_down, m_remove}) buttons->addWidget(button);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->setSpacing(space::small);
  m_column->setSpacing(0);
  all->addLayout(m_column);
  all->addWidget(m_empty);
  all->addLayout(buttons);
  connect(&m_document, &ProjectDocument::changed, this, &CoatTable::refresh);
  refresh(Change::Everything);
}

QToolButton* CoatTable::makeButton(const char* objectName, const QString& icon, const QString& tip, void (CoatTable::*slot)()) {
  auto* button = new QToolButton;
  button->setObjectName(QLatin1String(objectName));
  button->setIcon(lineIcon(icon));
  button->setAutoRaise(true);
  button->setToolTip(tip);
  button->setAccessibleName(tip);
  connect(button, &QToolButton::clicked, this, slot);
  return button;
}

void CoatTable::select(int layer) {
  m_selected = std::clamp(layer, 0, std::max(0, layerCount() - 1));
  refreshButtons();
}

void CoatTable::addLayer() {
  Layer layer;
  layer.coating = "unknown";
  layer.name = tr("new layer").toStdString();
  layer.thickness_m = {20e-6, 40e-6, 80e-6};
  layer.knownFrom = KnownFrom::Unknown;
  const int at = layerCount() == 0 ? 0 : m_selected + 1;
  m_selected = at;
  edits::addLayer(m_document, static_cast<std::size_t>(at), std::move(layer));
}

void CoatTable::moveUp() {
  if (m_selected == 0) return;
  --m_selected;
  edits::moveLayer(m_document, static_cast<std::size_t>(m_selected) + 1, static_cast<std::size_t>(m_selected));
}

void CoatTable::moveDown() {
  if (m_selected + 1 >= layerCount()) return;
  ++m_selected;
  edits::moveLayer(m_document, static_cast<std::size_t>(m_selected) - 1, static_cast<std::size_t>(m_selected));
}

void CoatTable::removeLayer() { edits::removeLayer(m_document, static_cast<std::size_t>(m_selected)); }

void CoatTable::refresh(Changes changes) {
  if (!(changes & Change::Coat)) return;
  if (changes == Changes(Change::Everything)) m_coatings->setLibraries(shippedLibrary(), m_document.project().library);
  const auto wanted = static_cast<std::size_t>(layerCount());
  while (m_rows.size() > wanted) {
    m_rows.back()->hide();
    m_rows.back()->deleteLater();  // it may be the one whose signal brought us here
    m_rows.pop_back();
  }
  while (m_rows.size() < wanted) {
    auto* row = new LayerRow(m_document, m_rows.size(), *m_coatings);
    connect(row, &LayerRow::chosen, this, &CoatTable::select);
    m_column->addWidget(row);
    m_rows.push_back(row);
  }
  for (LayerRow* row : m_rows) row->refresh();
  m_empty->setVisible(m_rows.empty());
  select(m_selected);
}

void CoatTable::refreshButtons() {
  m_up->setEnabled(m_selected > 0);
  m_down->setEnabled(m_selected + 1 < layerCount());
  m_remove->setEnabled(layerCount() > 0);
  for (std::size_t index = 0; index < m_rows.size(); ++index) m_rows[index]->setSelected(static_cast<int>(index) == m_selected);
}

}  // namespace bw
