// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/working.h"

#include "ui/style/theme.h"

#include <QFrame>
#include <QLabel>
#include <QScreen>
#include <QVBoxLayout>
#include <algorithm>

namespace bw {

namespace {

constexpr int popupWidth = 340;

QLabel* addText(QVBoxLayout* layout, const QString& text, QPalette::ColorRole role, bool bold = false) {
  auto* label = new QLabel(text);
  label->setWordWrap(true);
  label->setForegroundRole(role);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  QFont font = label->font();
  font.setBold(bold);
  label->setFont(font);
  layout->addWidget(label);
  return label;
}

}  // namespace

const Working* findWorking(const Assessment& assessment, const std::string& key) {
  const auto found =
      std::find_if(assessment.workings.begin(), assessment.workings.end(), [&key](const Working& working) { return working.key == key; });
  return found == assessment.workings.end() ? nullptr : &*found;
}

QWidget* openWorking(const Working& working, QWidget* anchor) {
  auto* popup = new QFrame(anchor, Qt::Popup);
  popup->setObjectName(QStringLiteral("working"));
  popup->setAttribute(Qt::WA_DeleteOnClose);
  popup->setFrameStyle(QFrame::Box | QFrame::Plain);
  popup->setBackgroundRole(QPalette::Base);
  popup->setAutoFillBackground(true);
  popup->setAccessibleName(QObject::tr("Working of %1").arg(QString::fromStdString(working.name)));
  auto* layout = new QVBoxLayout(popup);
  layout->setContentsMargins(space::large, space::large, space::large, space::large);
  layout->setSpacing(space::small);
  addText(layout, QString::fromStdString(working.name), QPalette::Text, true);
  addText(layout, QString::fromStdString(working.formula), QPalette::Text);
  if (!working.values.empty()) {
    layout->addSpacing(space::small);
    addText(layout, QObject::tr("Put in"), QPalette::PlaceholderText);
    QStringList values;
    for (const std::string& value : working.values) values << QStringLiteral("•  ") + QString::fromStdString(value);
    addText(layout, values.join(QLatin1Char('\n')), QPalette::Text);
  }
  if (!working.source.empty()) {
    layout->addSpacing(space::small);
    addText(layout, QObject::tr("Source: %1").arg(QString::fromStdString(working.source)), QPalette::PlaceholderText);
  }
  popup->setFixedSize(popupWidth, layout->totalHeightForWidth(popupWidth));
  const QRect screen = anchor->screen()->availableGeometry();
  QPoint corner = anchor->mapToGlobal(QPoint(0, anchor->height() + space::small));
  if (corner.y() + popup->height() > screen.bottom()) corner.setY(anchor->mapToGlobal(QPoint()).y() - popup->height() - space::small);
  corner.setX(std::clamp(corner.x(), screen.left(), std::max(screen.left(), screen.right() - popup->width())));
  popup->move(corner);
  popup->show();
  popup->setFocus();
  return popup;
}

}  // namespace bw
