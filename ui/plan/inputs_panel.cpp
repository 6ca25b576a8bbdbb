// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/inputs_panel.h"

#include "ui/document/edits.h"
#include "ui/plan/coat_table.h"
#include "ui/plan/form.h"
#include "ui/plan/part_form.h"
#include "ui/plan/settings_form.h"
#include "ui/plan/shop_section.h"
#include "ui/plots/coat_section.h"
#include "ui/plots/path_sketch.h"
#include "ui/style/theme.h"

#include <QScrollBar>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>

namespace bw {
namespace {

QFrame* makeRule() {
  auto* rule = new QFrame;
  rule->setFixedHeight(1);
  rule->setAutoFillBackground(true);
  rule->setBackgroundRole(QPalette::Mid);
  return rule;
}

}  // namespace

InputsPanel::InputsPanel(ProjectDocument& document, QWidget* parent)
    : QScrollArea(parent), m_document(document), m_section(new CoatSection), m_coat(new CoatTable(document)), m_sketch(new PathSketch) {
  setObjectName(QStringLiteral("inputs"));
  setFrameShape(QFrame::NoFrame);
  setWidgetResizable(true);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* page = new QWidget;
  page->setBackgroundRole(QPalette::Base);
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(space::large, space::medium, space::large, space::large);
  column->setSpacing(space::large);
  column->addWidget(new PartForm(m_document));
  column->addWidget(makeRule());
  column->addWidget(makeCoat());
  column->addWidget(makeRule());
  column->addWidget(new SettingsForm(m_document));
  column->addWidget(m_sketch);
  column->addWidget(makeRule());
  column->addWidget(makeShop());
  column->addStretch();
  setWidget(page);
  viewport()->setBackgroundRole(QPalette::Base);
  connect(&m_document, &ProjectDocument::changed, this, &InputsPanel::refresh);
  refresh(Change::Everything);
}

QWidget* InputsPanel::makeCoat() {
  auto* box = new QWidget;
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  QToolButton* edit = makeFoldButton(QStringLiteral("editCoat"), tr("Edit"));
  column->addWidget(new SectionHeader(tr("Coat"), edit));
  column->addWidget(m_section);
  column->addWidget(m_coat);
  m_coat->setVisible(false);
  connect(edit, &QToolButton::toggled, m_coat, &QWidget::setVisible);
  connect(m_section, &CoatSection::layerSelected, this, [this, edit](int layer) {
    edit->setChecked(true);
    m_coat->select(layer);
  });
  connect(m_section, &CoatSection::passChanged, this, &InputsPanel::passChanged);
  connect(m_section, &CoatSection::thicknessDragFinished, &m_document, &ProjectDocument::closeStep);
  connect(m_section, &CoatSection::thicknessDragged, this, [this](int layer, double thickness_m) {
    const auto index = static_cast<std::size_t>(layer);
    if (index >= m_document.project().coat.size()) return;
    edits::setLayerThickness(m_document, index, Range::exact(thickness_m), KnownFrom::Guess, EditKind::Step);
  });
  return box;
}

/// The last section: unfolded below the window's edge it would not be seen.
QWidget* InputsPanel::makeShop() {
  auto* shop = new ShopSection(m_document);
  connect(shop, &ShopSection::unfolded, this, [this, shop] {
    QTimer::singleShot(0, shop, [this, shop] { verticalScrollBar()->setValue(shop->y()); });  // once it has its size
  });
  return shop;
}

void InputsPanel::setAssessment(const std::shared_ptr<const Assessment>& assessment) {
  m_section->setAssessment(assessment);
  m_sketch->setAssessment(assessment);
}

void InputsPanel::setStale(bool stale) {
  m_section->setStale(stale);
  m_sketch->setStale(stale);
}

void InputsPanel::setPass(int pass) { m_section->setPass(pass); }

void InputsPanel::setPlace(std::optional<PickedPlace> place) { m_section->setPlace(place); }

void InputsPanel::refresh(Changes changes) {
  if (changes & Change::Coat) m_section->setCoat(m_document.project());
  if (changes & (Change::Settings | Change::Shown | Change::Plans)) m_sketch->setProject(m_document.project());
}

}  // namespace bw
