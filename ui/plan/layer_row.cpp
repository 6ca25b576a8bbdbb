// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/layer_row.h"

#include "core/files/library_file.h"
#include "ui/document/edits.h"
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/models/coating_model.h"
#include "ui/plan/layer_test_button.h"
#include "ui/style/theme.h"

#include <QCheckBox>
#include <QGridLayout>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>

namespace bw {
namespace {

constexpr double thinnest_m = 1e-7;
constexpr double thickest_m = 0.02;
constexpr int swatchWidth = 6;

}  // namespace

LayerRow::LayerRow(ProjectDocument& document, std::size_t index, CoatingModel& coatings, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_index(index),
      m_name(new QLineEdit),
      m_thickness(new QuantityField({tr("Layer thickness"), tr("Thickness of this layer; type a range such as 45..80 when it varies."),
                                     quantities::filmThickness, thinnest_m, thickest_m, 1e-6, true, true})),
      m_coating(new Chooser(tr("Coating"), tr("What this layer is made of."))),
      m_keep(new QCheckBox(tr("keep"))),
      m_test(new LayerTestButton(document, index)),
      m_more(new QWidget) {
  setObjectName(QStringLiteral("layer%1").arg(index));
  build(coatings);
  connectEdits();
}

void LayerRow::build(CoatingModel& coatings) {
  m_name->setObjectName(QStringLiteral("layerName"));
  m_name->setAccessibleName(tr("Layer name"));
  m_name->setToolTip(tr("What you call this layer: its colour at a chip, for instance."));
  m_name->setProperty("flat", true);
  m_thickness->setObjectName(QStringLiteral("layerThickness"));
  m_thickness->setFixedWidth(132);
  m_coating->setObjectName(QStringLiteral("layerCoating"));
  m_coating->setModel(&coatings);
  m_keep->setObjectName(QStringLiteral("layerKeep"));
  m_keep->setToolTip(tr("This layer must stay on the part."));
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(swatchWidth + space::small, 3, 0, 3);
  grid->setHorizontalSpacing(space::small);
  grid->setVerticalSpacing(space::small);
  grid->setColumnStretch(0, 1);
  grid->addWidget(m_name, 0, 0, Qt::AlignTop);
  grid->addWidget(m_thickness, 0, 1, Qt::AlignTop);
  auto* below = new QGridLayout(m_more);
  below->setContentsMargins(0, 0, 0, 0);
  below->setHorizontalSpacing(space::medium);
  below->setVerticalSpacing(space::small);
  below->setColumnStretch(0, 1);
  below->addWidget(m_coating, 0, 0);
  below->addWidget(m_keep, 0, 1);
  below->addWidget(m_test, 1, 0, 1, 2);
  grid->addWidget(m_more, 1, 0, 1, 2);
  m_more->hide();
  for (QWidget* field : {static_cast<QWidget*>(m_name), static_cast<QWidget*>(m_thickness->edit()), static_cast<QWidget*>(m_coating),
                         static_cast<QWidget*>(m_keep), static_cast<QWidget*>(m_test)}) {
    field->installEventFilter(this);
  }
}

void LayerRow::connectEdits() {
  connect(m_name, &QLineEdit::editingFinished, this, [this] {
    const std::string name = m_name->text().trimmed().toStdString();
    if (name.empty()) return refresh();
    if (name != layer().name) edits::renameLayer(m_document, m_index, name);
  });
  connect(m_thickness, &QuantityField::edited, this,
          [this](Range value, EditKind kind) { edits::setLayerThickness(m_document, m_index, value, KnownFrom::Guess, kind); });
  connect(m_thickness, &QuantityField::provenanceChosen, this, [this](KnownFrom from) {
    if (from == KnownFrom::Unknown) return forgetThickness();
    edits::setLayerThickness(m_document, m_index, layer().thickness_m, from);
  });
  connect(m_thickness, &QuantityField::unknownChosen, this, [this] { forgetThickness(); });
  connect(m_coating, &QComboBox::activated, this, [this] {
    edits::setLayerCoating(m_document, m_index, m_coating->currentData().toString().toStdString());
  });
  connect(m_keep, &QCheckBox::clicked, this, [this](bool keep) { edits::setLayerKept(m_document, m_index, keep); });
}

void LayerRow::forgetThickness() {
  edits::setLayerThicknessUnknown(m_document, m_index, shippedLibrary());
  refresh();
}

void LayerRow::refresh() {
  const QString name = QString::fromStdString(layer().name);
  if (m_name->text() != name) m_name->setText(name);
  m_name->setCursorPosition(0);
  m_thickness->setRange(layer().thickness_m);
  m_thickness->setProvenance(layer().knownFrom.value_or(KnownFrom::Guess));
  const auto* coatings = qobject_cast<const CoatingModel*>(m_coating->model());
  m_coating->setCurrentIndex(coatings->rowOf(QString::fromStdString(layer().coating)));
  m_keep->setChecked(layer().keep);
  m_test->refresh();
  m_colour = layer().colour ? QColor(QString::fromStdString(*layer().colour)) : QColor();
  if (!m_colour.isValid()) m_colour = m_coating->currentData(Qt::DecorationRole).value<QColor>();
  update();
}

void LayerRow::setSelected(bool selected) {
  if (m_selected == selected) return;
  m_selected = selected;
  m_more->setVisible(selected);
  update();
}

void LayerRow::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Tones tones = tonesOf(palette());
  if (m_selected) painter.fillRect(rect(), palette().color(QPalette::AlternateBase));
  painter.fillRect(0, space::small, swatchWidth, height() - 2 * space::small - 1, m_colour);
  painter.setPen(tones.line);
  painter.drawRect(0, space::small, swatchWidth - 1, height() - 2 * space::small - 2);
  painter.drawLine(0, height() - 1, width(), height() - 1);
}

void LayerRow::mousePressEvent(QMouseEvent*) { emit chosen(static_cast<int>(m_index)); }

bool LayerRow::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::FocusIn) emit chosen(static_cast<int>(m_index));
  return QWidget::eventFilter(watched, event);
}

}  // namespace bw
