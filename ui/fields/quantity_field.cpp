// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/quantity_field.h"

#include "ui/fields/problem_label.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace bw {

QuantityField::QuantityField(Description description, QWidget* parent)
    : QWidget(parent), m_description(std::move(description)), m_edit(new QLineEdit), m_unit(new QLabel(m_edit)), m_problem(new ProblemLabel) {
  setName(m_description.name, m_description.tip);
  m_edit->setObjectName(QStringLiteral("edit"));
  m_edit->setAlignment(Qt::AlignRight);
  m_edit->setMinimumWidth(56);
  m_edit->installEventFilter(this);
  m_unit->setText(m_description.quantity.shown().symbol);
  m_unit->setAttribute(Qt::WA_TransparentForMouseEvents);
  setFocusProxy(m_edit);

  auto* row = new QHBoxLayout;
  row->setSpacing(space::hair);
  row->addWidget(m_edit);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  column->addLayout(row);
  column->addWidget(m_problem);
  connect(m_edit, &QLineEdit::returnPressed, this, [this] {
    commit();
    m_edit->selectAll();
  });
  placeUnit();
}

void QuantityField::setRange(const Range& value) {
  if (m_value == value) return;  // what is being typed, or is wrong and stands there to be mended, is not wiped
  m_value = value;
  showValue();
}

void QuantityField::setUnknown() {
  if (!m_value && !m_shown.isEmpty()) return;  // as above
  m_value.reset();
  showValue();
}

void QuantityField::dropTyped() {
  if (m_edit->text() != m_shown || !problem().isEmpty()) showValue();
}

void QuantityField::showUnit(bool shown) {
  m_unit->setText(shown ? m_description.quantity.shown().symbol : QString());
  placeUnit();
}

void QuantityField::setLimits(double low, double high) {
  m_description.low = low;
  m_description.high = high;
}

void QuantityField::setName(const QString& name, const QString& tip) {
  m_description.name = name;
  m_description.tip = tip;
  m_edit->setAccessibleName(name);
  m_edit->setToolTip(tip);
}

void QuantityField::setProvenance(KnownFrom from) {
  if (!m_mark) {
    m_mark = new ProvenanceMark;
    m_mark->setObjectName(QStringLiteral("provenance"));
    layout()->itemAt(0)->layout()->addWidget(m_mark);
    connect(m_mark, &ProvenanceMark::chosen, this, &QuantityField::provenanceChosen);
  }
  m_mark->setFrom(from);
}

QString QuantityField::problem() const { return m_problem->text(); }

bool QuantityField::eventFilter(QObject* watched, QEvent* event) {
  switch (event->type()) {
    case QEvent::ShortcutOverride: {
      // With nothing half typed, undo and redo mean the project's.
      const auto* keys = static_cast<QKeyEvent*>(event);
      const bool isUndo = keys->matches(QKeySequence::Undo) || keys->matches(QKeySequence::Redo);
      if (!isUndo || m_edit->text() != m_shown) return false;
      event->ignore();
      return true;
    }
    case QEvent::KeyPress: return handleKey(static_cast<QKeyEvent*>(event)->key());
    case QEvent::FocusOut:
      commit();
      break;
    case QEvent::Resize: placeUnit(); break;
    case QEvent::Wheel: {
      if (!m_edit->hasFocus()) {
        event->ignore();  // so that the page scrolls instead
        return true;
      }
      const int turn = static_cast<QWheelEvent*>(event)->angleDelta().y();
      if (turn != 0) stepBy(turn > 0 ? 1 : -1);
      event->accept();
      return true;
    }
    default: break;
  }
  return QWidget::eventFilter(watched, event);
}

bool QuantityField::handleKey(int key) {
  switch (key) {
    case Qt::Key_Up: stepBy(1); return true;
    case Qt::Key_Down: stepBy(-1); return true;
    case Qt::Key_PageUp: stepBy(10); return true;
    case Qt::Key_PageDown: stepBy(-10); return true;
    case Qt::Key_Escape:
      if (m_edit->text() == m_shown && problem().isEmpty()) return false;
      restore();
      return true;
    default: return false;
  }
}

void QuantityField::commit() {
  if (m_edit->text() == m_shown) {
    m_problem->say({});
    return;
  }
  const TypedQuantity typed = readQuantity(m_edit->text(), m_description.quantity);
  if (!typed.problem.isEmpty()) return m_problem->say(typed.problem);
  if (typed.unknown) {
    if (!m_description.unknown) return m_problem->say(tr("%1 must be a number.").arg(m_description.name));
    m_value.reset();
    showValue();
    emit unknownChosen();
    return;
  }
  const Range value = *typed.value;
  if (!value.isExact() && !m_description.range) return m_problem->say(tr("%1 is one number, not a range.").arg(m_description.name));
  if (m_description.whole && value.likely != std::round(value.likely)) return m_problem->say(tr("%1 must be a whole number.").arg(m_description.name));
  if (const QString sentence = outOfLimits(value); !sentence.isEmpty()) return m_problem->say(sentence);
  m_value = value;
  showValue();
  emit edited(value, EditKind::Whole);
}

QString QuantityField::outOfLimits(const Range& value) const {
  const double hair = 1e-9 * std::abs(m_description.high);  // what a conversion between units may lose
  if (value.low >= m_description.low - hair && value.high <= m_description.high + hair) return {};
  return tr("%1 must lie between %2 and %3.")
      .arg(m_description.name, writeQuantity(Range::exact(m_description.low), m_description.quantity),
           withUnit(m_description.high, m_description.quantity));
}

void QuantityField::restore() {
  showValue();
  m_edit->selectAll();
}

void QuantityField::stepBy(double steps) {
  if (m_edit->text() != m_shown) commit();
  if (!m_value || !problem().isEmpty()) return;
  // What a file brought from beyond the limits is not thrown back to them by one click.
  const double least = std::min(m_description.low, m_value->low), most = std::max(m_description.high, m_value->high);
  const double likely = std::clamp(m_value->likely + steps * m_description.step, least, most);
  const double shift = likely - m_value->likely;
  if (shift == 0) return;
  const auto moved = [&](double value) { return std::clamp(value + shift, least, most); };
  m_value = Range{moved(m_value->low), likely, moved(m_value->high)};
  showValue();
  m_edit->selectAll();
  emit edited(*m_value, EditKind::Step);
}

void QuantityField::showValue() {
  m_shown = m_value ? writeQuantity(*m_value, m_description.quantity) : tr("don't know");
  m_problem->say({});
  m_unit->setVisible(m_value.has_value());
  if (m_edit->text() == m_shown) return;
  m_edit->setText(m_shown);
  m_edit->setCursorPosition(0);
}

void QuantityField::placeUnit() {
  const QSize size = m_unit->sizeHint();
  m_edit->setTextMargins(0, 0, m_unit->text().isEmpty() ? 0 : size.width() + space::small, 0);
  m_unit->setGeometry(m_edit->width() - size.width() - space::medium, 0, size.width(), m_edit->height());
  QPalette quiet = palette();
  quiet.setColor(QPalette::WindowText, tonesOf(palette()).quiet);
  m_unit->setPalette(quiet);
}

void QuantityField::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) placeUnit();
  QWidget::changeEvent(event);
}

}  // namespace bw
