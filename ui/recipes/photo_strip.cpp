// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/photo_strip.h"

#include "ui/style/theme.h"

#include <QDialog>
#include <QFile>
#include <QGridLayout>
#include <QImageReader>
#include <QLabel>
#include <QScreen>
#include <QToolButton>
#include <QVBoxLayout>

namespace bw {
namespace {

constexpr QSize picture(160, 120);

QString nameOf(const Photo& photo) {
  const QString note = QString::fromStdString(photo.attachment.note);
  return note.isEmpty() ? QString::fromStdString(photo.attachment.name) : note;
}

QToolButton* buttonFor(const Photo& photo) {
  auto* button = new QToolButton;
  button->setObjectName(QStringLiteral("photo"));
  button->setFocusPolicy(Qt::StrongFocus);
  button->setAutoRaise(true);
  const bool shown = !photo.small.isNull();
  if (shown) {
    button->setIcon(QPixmap::fromImage(photo.small));
    button->setIconSize(photo.small.size().scaled(picture, Qt::KeepAspectRatio));
  }
  button->setToolButtonStyle(shown ? Qt::ToolButtonTextUnderIcon : Qt::ToolButtonTextOnly);
  const bool there = QFile::exists(photo.file);
  const QString words = shown ? nameOf(photo) : (there ? PhotoStrip::tr("%1: a file") : PhotoStrip::tr("%1: not found")).arg(nameOf(photo));
  button->setText(button->fontMetrics().elidedText(words, Qt::ElideRight, picture.width()));
  button->setToolTip(QStringLiteral("%1\n%2").arg(words, QString::fromStdString(photo.attachment.name)));
  button->setAccessibleName(shown ? PhotoStrip::tr("Photo: %1").arg(words) : words);
  button->setEnabled(shown);
  return button;
}

}  // namespace

PhotoStrip::PhotoStrip(const std::vector<Photo>& photos, QWidget* parent) : QWidget(parent) {
  setObjectName(QStringLiteral("photoStrip"));
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  for (const Photo& photo : photos) {
    QToolButton* button = buttonFor(photo);
    connect(button, &QToolButton::clicked, this, [this, photo] { emit opened(photo); });
    m_buttons.push_back(button);
  }
  arrange();
}

void PhotoStrip::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  arrange();
}

void PhotoStrip::arrange() {
  auto* grid = static_cast<QGridLayout*>(layout());
  const int columns = std::max(1, width() / (picture.width() + 2 * space::medium));
  for (QWidget* button : m_buttons) grid->removeWidget(button);
  for (std::size_t i = 0; i < m_buttons.size(); ++i) {
    const int at = static_cast<int>(i);
    grid->addWidget(m_buttons[i], at / columns, at % columns, Qt::AlignLeft | Qt::AlignTop);
  }
  grid->setColumnStretch(columns, 1);
}

void showLarge(const Photo& photo, QWidget* window) {
  QImageReader reader(photo.file);
  reader.setAutoTransform(true);
  const QSize most = window->screen()->availableSize() * 0.8;
  if (reader.size().isValid() && (reader.size().width() > most.width() || reader.size().height() > most.height()))
    reader.setScaledSize(reader.size().scaled(most, Qt::KeepAspectRatio));
  const QImage image = reader.read();
  if (image.isNull()) return;
  auto* dialog = new QDialog(window);
  dialog->setObjectName(QStringLiteral("largePhoto"));
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  dialog->setWindowTitle(nameOf(photo));
  auto* label = new QLabel;
  label->setPixmap(QPixmap::fromImage(image));
  label->setAccessibleName(nameOf(photo));
  auto* column = new QVBoxLayout(dialog);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(label);
  dialog->open();
}

}  // namespace bw
