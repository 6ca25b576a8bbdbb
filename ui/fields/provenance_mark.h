// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/known_from.h"

#include <QToolButton>

namespace bw {

/// "typical", "yours", "measured", "don't know".
QString provenanceWord(KnownFrom from);

/// A small mark beside a value that says where it comes from, by shape: ring typical, half disc yours, disc measured, "?" don't know.
/// A click offers the others.
class ProvenanceMark : public QToolButton {
  Q_OBJECT
 public:
  explicit ProvenanceMark(QWidget* parent = nullptr);

  void setFrom(KnownFrom from);
  KnownFrom from() const { return m_from; }
  QSize sizeHint() const override { return {20, 20}; }

 signals:
  void chosen(bw::KnownFrom from);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  KnownFrom m_from = KnownFrom::Typical;
};

}  // namespace bw
