// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/fields/quantity.h"

#include "core/values/range.h"

#include <QLineEdit>

#include <optional>

namespace bw {

/// From..to of a quantity as a condition of a search, typed as "80..150"; empty means any. What is not understood counts as any and is
/// said.
class SpanEdit : public QLineEdit {
  Q_OBJECT
 public:
  SpanEdit(const QString& name, const QString& tip, Quantity quantity, QWidget* parent = nullptr);
  std::optional<Range> span() const { return m_span; }
  void reset();

 signals:
  void changed();
  void problem(const QString& sentence);  // empty: none

 private:
  void read();
  Quantity m_quantity;
  std::optional<Range> m_span;
};

}  // namespace bw
