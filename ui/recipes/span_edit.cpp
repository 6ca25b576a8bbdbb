// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/span_edit.h"

#include "ui/fields/quantity_text.h"

namespace bw {

SpanEdit::SpanEdit(const QString& name, const QString& tip, Quantity quantity, QWidget* parent)
    : QLineEdit(parent), m_quantity(std::move(quantity)) {
  setAccessibleName(name);
  setToolTip(tip);
  connect(this, &QLineEdit::textEdited, this, &SpanEdit::read);
}

void SpanEdit::reset() {
  m_span.reset();
  clear();
  emit problem({});
}

void SpanEdit::read() {
  const std::optional<Range> before = m_span;
  m_span.reset();
  QString typed = text().trimmed();
  while (typed.endsWith(QLatin1Char('.')) || typed.endsWith(QLatin1Char('-'))) typed.chop(1);  // half typed
  if (!typed.isEmpty()) {
    const TypedQuantity found = readQuantity(typed, m_quantity);
    m_span = found.value;
    emit problem(found.problem.isEmpty() ? QString() : tr("%1: %2").arg(accessibleName(), found.problem));
  } else {
    emit problem({});
  }
  if (m_span != before) emit changed();
}

}  // namespace bw
