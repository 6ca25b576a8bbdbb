// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/verdict_row.h"

#include "ui/plan/fact_list.h"
#include "ui/plan/working.h"
#include "ui/style/theme.h"

#include <QEvent>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

namespace bw {

namespace {

constexpr int headHeight = 32;
constexpr int rowShape_px = 16;
constexpr int textLeft = space::edgeStripe + space::medium + rowShape_px + space::medium;

QFont bold(QFont font) {
  font.setBold(true);
  return font;
}

QFont small(QFont font) {
  font.setPixelSize(space::leastFont);
  return font;
}

}  // namespace

RemedyButton::RemedyButton(const QString& label, const QString& effect, QWidget* parent) : QAbstractButton(parent), m_effect(effect) {
  setText(label);
  setCursor(Qt::PointingHandCursor);
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_Hover);
  setAccessibleName(label);
  setAccessibleDescription(effect);
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
}

QRect RemedyButton::labelBox(int width) const {
  const QRect room(space::medium, space::small + 1, width - 2 * space::medium - 14, 1000);
  return QFontMetrics(bold(font())).boundingRect(room, Qt::TextWordWrap, text());
}

QRect RemedyButton::effectBox(int width, int top) const {
  return QFontMetrics(small(font())).boundingRect(QRect(space::medium, top, width - 2 * space::medium, 1000), Qt::TextWordWrap, m_effect);
}

int RemedyButton::heightForWidth(int width) const { return effectBox(width, labelBox(width).bottom() + 2).bottom() + space::small + 2; }

void RemedyButton::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  const bool lively = underMouse() || hasFocus();
  painter.setPen(QPen(lively ? tones.accent : tones.line, 1));
  painter.setBrush(isDown() ? blend(tones.sheet, tones.accent, 0.18)
                   : lively ? blend(tones.sheet, tones.accent, 0.08)
                            : palette().color(QPalette::Button));
  painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), space::small, space::small);
  const QRect label = labelBox(width());
  painter.setPen(tones.ink);
  painter.setFont(bold(font()));
  painter.drawText(QRect(space::medium, label.top(), width() - 2 * space::medium - 14, label.height()), Qt::TextWordWrap, text());
  painter.setFont(small(font()));
  painter.setPen(tones.quiet);
  painter.drawText(effectBox(width(), label.bottom() + 2).adjusted(0, 0, 2, 2), Qt::TextWordWrap, m_effect);
  painter.setPen(QPen(tones.accent, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const QPointF tip(width() - space::medium - 1, label.top() + 8);
  painter.drawPolyline(QPolygonF{tip + QPointF(-4, -4), tip, tip + QPointF(-4, 4)});
}

bool RemedyButton::event(QEvent* event) {
  const QEvent::Type type = event->type();
  if (type == QEvent::Enter || type == QEvent::FocusIn) emit hovered(true);
  if (type == QEvent::Leave || type == QEvent::FocusOut) emit hovered(false);
  return QAbstractButton::event(event);
}

RowHead::RowHead(QWidget* parent) : QAbstractButton(parent) {
  setCheckable(true);
  setCursor(Qt::PointingHandCursor);
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_Hover);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void RowHead::setRow(const VerdictRow& row) {
  m_status = row.status;
  setText(QString::fromStdString(row.question));
  setAccessibleName(text() + QStringLiteral(" ") + stateWord(m_status));
  setAccessibleDescription(QString::fromStdString(row.message));
  setToolTip(QString::fromStdString(row.message));
  update();
}

QSize RowHead::sizeHint() const { return {200, headHeight}; }

void RowHead::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  if (underMouse()) painter.fillRect(rect().adjusted(space::edgeStripe, 1, -1, -1), blend(tones.sheet, tones.line, 0.3));
  if (hasFocus()) {
    painter.setPen(QPen(tones.accent, 1));
    painter.drawRoundedRect(QRectF(rect()).adjusted(space::edgeStripe + 1.5, 1.5, -1.5, -1.5), 3, 3);
  }
  paintState(painter, QRectF(space::edgeStripe + space::medium, (height() - rowShape_px) / 2.0, rowShape_px, rowShape_px), m_status,
             palette());
  painter.setPen(tones.ink);
  const QString word = stateWord(m_status);
  const int arrow = width() - space::large - 2, wordWidth = fontMetrics().horizontalAdvance(word);
  painter.drawText(QRect(arrow - space::large - wordWidth - 4, 0, wordWidth + 4, height()), Qt::AlignRight | Qt::AlignVCenter, word);
  painter.setFont(bold(font()));
  painter.drawText(QRect(textLeft, 0, arrow - wordWidth - textLeft - space::large, height()), Qt::AlignLeft | Qt::AlignVCenter, text());
  painter.setPen(QPen(tones.quiet, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const QPointF middle(arrow, height() / 2.0);
  const double down = isChecked() ? -2 : 2;
  painter.drawPolyline(QPolygonF{middle + QPointF(-4, -down), middle + QPointF(0, down), middle + QPointF(4, -down)});
}

VerdictRowView::VerdictRowView(const std::string& check, QWidget* parent)
    : QWidget(parent),
      m_head(new RowHead(this)),
      m_body(new QWidget(this)),
      m_sentence(new QLabel),
      m_details(new DetailList),
      m_how(new QToolButton),
      m_advice(new QLabel),
      m_remedies(new QVBoxLayout) {
  m_row.check = check;
  setObjectName(QStringLiteral("row_") + QString::fromStdString(check));
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(0);
  layout->addWidget(m_head);
  layout->addWidget(m_body);
  auto* body = new QVBoxLayout(m_body);
  body->setContentsMargins(textLeft, 0, space::large, space::medium);
  body->setSpacing(space::medium - 2);
  m_sentence->setWordWrap(true);
  m_sentence->setTextInteractionFlags(Qt::TextSelectableByMouse);
  m_how->setText(tr("How is this worked out?"));
  m_how->setAutoRaise(true);
  QFont linked = small(font());
  linked.setUnderline(true);
  m_how->setFont(linked);
  m_how->setCursor(Qt::PointingHandCursor);
  m_advice->setWordWrap(true);
  m_advice->setForegroundRole(QPalette::PlaceholderText);
  m_remedies->setSpacing(space::small);
  body->addWidget(m_sentence);
  body->addWidget(m_details);
  body->addWidget(m_how, 0, Qt::AlignLeft);
  body->addWidget(m_advice);
  body->addLayout(m_remedies);
  connect(m_how, &QToolButton::clicked, this, [this] { openWorking(*m_working, m_how); });
  connect(m_head, &RowHead::toggled, this, [this](bool open) {
    m_body->setVisible(open);
    emit toggled(open);
  });
  m_body->setVisible(false);
}

void VerdictRowView::setRow(const VerdictRow& row, const Working* working) {
  m_row = row;
  m_head->setRow(row);
  m_sentence->setText(QString::fromStdString(row.message));
  m_working = working != nullptr ? std::optional(*working) : std::nullopt;
  m_how->setVisible(m_working.has_value());
  m_advice->setText(QString::fromStdString(row.remedy));
  showAdvice();
  update();
}

void VerdictRowView::showAdvice() { m_advice->setVisible(!m_hasRemedies && !m_row.remedy.empty()); }

bool VerdictRowView::isOpen() const { return m_head->isChecked(); }
void VerdictRowView::setOpen(bool open) { m_head->setChecked(open); }

void VerdictRowView::setRemedies(const std::vector<RemedyButton*>& buttons) {
  while (QLayoutItem* item = m_remedies->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  for (RemedyButton* button : buttons) m_remedies->addWidget(button);
  m_hasRemedies = !buttons.empty();
  showAdvice();
}

void VerdictRowView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Tones tones = tonesOf(palette());
  painter.fillRect(rect(), tones.sheet);
  painter.fillRect(QRect(0, 0, space::edgeStripe, height()), stateColour(m_row.status, palette()));
  painter.setPen(QPen(tones.line, 1));
  painter.drawLine(space::edgeStripe, height() - 1, width(), height() - 1);
}

}  // namespace bw
