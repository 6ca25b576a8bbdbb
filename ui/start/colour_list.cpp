// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/start/colour_list.h"

#include "ui/fields/chooser.h"
#include "ui/fields/icon.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QToolButton>

#include <algorithm>

namespace bw {
namespace {

QPixmap swatch(const QString& colour, const QPalette& palette, double devicePixelRatio) {
  constexpr int side = 16;
  QPixmap pixmap(QSize(side, side) * devicePixelRatio);
  pixmap.setDevicePixelRatio(devicePixelRatio);
  pixmap.fill(QColor(colour));
  QPainter painter(&pixmap);
  painter.setPen(tonesOf(palette).line);
  painter.drawRect(0, 0, side - 1, side - 1);
  return pixmap;
}

}  // namespace

ColourList::ColourList(QWidget* parent)
    : QWidget(parent), m_next(new Chooser(tr("Next colour down"), tr("Colours seen at the edge of a chip or a scratch, from the top down."))),
      m_rows(new QVBoxLayout) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  m_rows->setSpacing(0);
  column->addLayout(m_rows);
  column->addWidget(m_next);
  m_next->setObjectName(QStringLiteral("nextColour"));
  for (const ChipColour& one : chipColours()) {
    m_next->addItem(swatch(QString::fromStdString(one.colour), palette(), devicePixelRatioF()), QString::fromStdString(one.word),
                    QString::fromStdString(one.word));
  }
  connect(m_next, &Chooser::chosen, this, &ColourList::add);
  m_next->installEventFilter(this);
  rebuild();
}

/// Keys that would choose at once in a closed list open it instead: each press would add a coat.
bool ColourList::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  const auto* key = static_cast<QKeyEvent*>(event);
  const bool letter = !key->text().isEmpty() && key->text().front().isPrint() && key->key() != Qt::Key_Space;
  const bool moves = key->key() >= Qt::Key_Home && key->key() <= Qt::Key_PageDown;
  if (!letter && !moves) return QWidget::eventFilter(watched, event);
  static_cast<QComboBox*>(m_next)->showPopup();
  return true;
}

void ColourList::clear() {
  m_colours.clear();
  rebuild();
}

void ColourList::add(const QString& word) {
  const auto all = chipColours();
  const auto found = std::ranges::find(all, word.toStdString(), &ChipColour::word);
  if (found != all.end()) m_colours.push_back(*found);
  rebuild();
}

void ColourList::remove(std::size_t index) {
  m_colours.erase(m_colours.begin() + static_cast<std::ptrdiff_t>(index));
  rebuild();
}

void ColourList::rebuild() {
  while (QLayoutItem* item = m_rows->takeAt(0)) {
    item->widget()->hide();
    item->widget()->deleteLater();
    delete item;
  }
  for (std::size_t index = 0; index < m_colours.size(); ++index) {
    auto* row = new QWidget;
    auto* inner = new QHBoxLayout(row);
    inner->setContentsMargins(0, 0, 0, 0);
    inner->setSpacing(space::medium);
    auto* picture = new QLabel;
    picture->setPixmap(swatch(QString::fromStdString(m_colours[index].colour), palette(), devicePixelRatioF()));
    auto* close = new QToolButton;
    close->setIcon(lineIcon(QStringLiteral("close")));
    close->setAutoRaise(true);
    close->setToolTip(tr("Take %1 off the list").arg(QString::fromStdString(m_colours[index].word)));
    close->setAccessibleName(close->toolTip());
    inner->addWidget(picture);
    inner->addWidget(new QLabel(QString::fromStdString(m_colours[index].word)), 1);
    inner->addWidget(close);
    m_rows->addWidget(row);
    connect(close, &QToolButton::clicked, this, [this, index] { remove(index); });
  }
  m_next->setPlaceholderText(m_colours.empty() ? tr("The colour on top…") : tr("The next colour down…"));
  m_next->setCurrentIndex(-1);
}

}  // namespace bw
