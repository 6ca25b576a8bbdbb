// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/verdict_row.h"

#include "ui/plan/fact_list.h"
#include "ui/plan/form.h"
#include "ui/plan/working.h"
#include "ui/style/theme.h"

#include <QEvent>
#include <QGraphicsOpacityEffect>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QRegularExpression>
#include <QToolButton>
#include <QVBoxLayout>

namespace bw {

namespace {

constexpr int headHeight = 26;
constexpr int lineHeight = 16;  // of what a folded head says below
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
  updateGeometry();
  update();
}

QSize RowHead::sizeHint() const { return {200, headHeight + (saysMore() ? lineHeight : 0)}; }

/// Folded, what fails says in one line why.
bool RowHead::saysMore() const { return !isChecked() && m_status == Status::Fails; }

void RowHead::checkStateSet() {
  QAbstractButton::checkStateSet();
  updateGeometry();
}

void RowHead::nextCheckState() {
  QAbstractButton::nextCheckState();
  updateGeometry();
}

void RowHead::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  if (underMouse()) painter.fillRect(rect().adjusted(space::edgeStripe, 1, -1, -1), blend(tones.sheet, tones.line, 0.3));
  if (hasFocus()) {
    painter.setPen(QPen(tones.accent, 1));
    painter.drawRoundedRect(QRectF(rect()).adjusted(space::edgeStripe + 1.5, 1.5, -1.5, -1.5), 3, 3);
  }
  paintState(painter, QRectF(space::edgeStripe + space::medium, (headHeight - rowShape_px) / 2.0, rowShape_px, rowShape_px), m_status,
             palette());
  painter.setPen(tones.ink);
  const QString word = stateWord(m_status);
  const int arrow = width() - space::large - 2, wordWidth = fontMetrics().horizontalAdvance(word);
  painter.drawText(QRect(arrow - space::large - wordWidth - 4, 0, wordWidth + 4, headHeight), Qt::AlignRight | Qt::AlignVCenter, word);
  painter.setFont(bold(font()));
  painter.drawText(QRect(textLeft, 0, arrow - wordWidth - textLeft - space::large, headHeight), Qt::AlignLeft | Qt::AlignVCenter, text());
  painter.setPen(QPen(tones.quiet, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const QPointF middle(arrow, headHeight / 2.0);
  const double down = isChecked() ? -2 : 2;
  painter.drawPolyline(QPolygonF{middle + QPointF(-4, -down), middle + QPointF(0, down), middle + QPointF(4, -down)});
  if (!saysMore()) return;
  painter.setPen(tones.quiet);
  painter.setFont(small(font()));
  const QRect line(textLeft, headHeight - 4, width() - textLeft - space::large, lineHeight);
  painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter,
                   painter.fontMetrics().elidedText(accessibleDescription(), Qt::ElideRight, line.width()));
}

VerdictRowView::VerdictRowView(const std::string& check, QWidget* parent)
    : QWidget(parent),
      m_head(new RowHead(this)),
      m_body(new QWidget(this)),
      m_sentence(new QLabel),
      m_advice(new QLabel),
      m_remedies(new QVBoxLayout),
      m_more(makeFoldButton(QStringLiteral("unfold"), tr("Details"))),
      m_fold(new QWidget),
      m_rest(new QLabel),
      m_details(new DetailList),
      m_how(new QToolButton),
      m_others(new QVBoxLayout) {
  m_row.check = check;
  setObjectName(QStringLiteral("row_") + QString::fromStdString(check));
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(0);
  layout->addWidget(m_head);
  layout->addWidget(m_body);
  auto* body = new QVBoxLayout(m_body);
  body->setContentsMargins(textLeft, 0, space::large, space::small);
  body->setSpacing(space::medium - 2);
  m_sentence->setWordWrap(true);
  m_sentence->setTextInteractionFlags(Qt::TextSelectableByMouse);
  m_advice->setWordWrap(true);
  m_advice->setForegroundRole(QPalette::PlaceholderText);
  m_remedies->setSpacing(space::small);
  m_more->setFont(small(font()));
  body->addWidget(m_sentence);
  body->addWidget(m_advice);
  body->addLayout(m_remedies);
  body->addWidget(m_more, 0, Qt::AlignLeft);
  body->addWidget(buildFold());
  connect(m_head, &RowHead::toggled, this, [this](bool open) {
    m_body->setVisible(open);
    emit toggled(open);
  });
  connect(m_more, &QToolButton::toggled, this, [this](bool open) {
    m_fold->setVisible(open);
    emit unfolded(open);
  });
  m_body->setVisible(false);
  m_fold->setVisible(false);
}

QWidget* VerdictRowView::buildFold() {
  m_how->setText(tr("How is this worked out?"));
  m_how->setAutoRaise(true);
  QFont linked = small(font());
  linked.setUnderline(true);
  m_how->setFont(linked);
  m_how->setCursor(Qt::PointingHandCursor);
  connect(m_how, &QToolButton::clicked, this, [this] { openWorking(*m_working, m_how); });
  auto* column = new QVBoxLayout(m_fold);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::medium - 2);
  m_others->setSpacing(space::small);
  m_rest->setWordWrap(true);
  m_rest->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column->addWidget(m_rest);
  column->addLayout(m_others);
  column->addWidget(m_details);
  column->addWidget(m_how, 0, Qt::AlignLeft);
  return m_fold;
}

void VerdictRowView::setRow(const VerdictRow& row, const QString& sentence, const Working* working) {
  m_row = row;
  m_head->setRow(row);
  static const QRegularExpression end(QStringLiteral("(?<=\\.)\\s+(?=[A-Z\"])"));
  const qsizetype first = sentence.indexOf(end);
  m_sentence->setText(first < 0 ? sentence : sentence.left(first));
  m_sentence->setVisible(!sentence.isEmpty());
  m_rest->setText(first < 0 ? QString() : sentence.mid(first).trimmed());
  m_rest->setVisible(first >= 0);
  m_working = working != nullptr ? std::optional(*working) : std::nullopt;
  m_how->setVisible(m_working.has_value());
  m_advice->setText(QString::fromStdString(row.remedy));
  showAdvice();
  update();
}

void VerdictRowView::showAdvice() { m_advice->setVisible(m_remedies->count() == 0 && !m_row.remedy.empty()); }

void VerdictRowView::nameFold() {
  const int others = m_others->count();
  m_more->setText(others == 0 ? tr("Details") : others == 1 ? tr("Details, 1 other way") : tr("Details, %1 other ways").arg(others));
}

bool VerdictRowView::isOpen() const { return m_head->isChecked(); }
void VerdictRowView::setOpen(bool open) { m_head->setChecked(open); }
bool VerdictRowView::isUnfolded() const { return m_more->isChecked(); }
void VerdictRowView::setUnfolded(bool unfolded) { m_more->setChecked(unfolded); }

void VerdictRowView::setRemedies(const std::vector<RemedyButton*>& buttons) {
  for (QVBoxLayout* layout : {m_remedies, m_others}) {
    while (QLayoutItem* item = layout->takeAt(0)) {
      delete item->widget();
      delete item;
    }
  }
  for (RemedyButton* button : buttons) (m_remedies->count() == 0 ? m_remedies : m_others)->addWidget(button);
  showAdvice();
  nameFold();
}

QGraphicsEffect* faint(QWidget* widget) {
  auto* effect = new QGraphicsOpacityEffect(widget);
  effect->setOpacity(0.5);
  return effect;
}

void VerdictRowView::setPending(bool pending) {
  if (m_pending == pending) return;
  m_pending = pending;
  setGraphicsEffect(pending ? faint(this) : nullptr);
  setAccessibleDescription(pending ? tr("Of the plan before; the new answer follows.") : QString());
}

void VerdictRowView::setMarked(bool marked) {
  if (m_marked == marked) return;
  m_marked = marked;
  update();
}

void VerdictRowView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Tones tones = tonesOf(palette());
  painter.fillRect(rect(), tones.sheet);
  painter.fillRect(QRect(0, 0, space::edgeStripe, height()), stateColour(m_row.status, palette()));
  painter.setPen(QPen(tones.line, 1));
  painter.drawLine(space::edgeStripe, height() - 1, width(), height() - 1);
  if (!m_marked) return;
  painter.setPen(QPen(tones.accent, 2));
  painter.drawRect(rect().adjusted(space::edgeStripe + 1, 1, -1, -1));
}

}  // namespace bw
