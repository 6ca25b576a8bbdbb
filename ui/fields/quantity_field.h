// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/change.h"
#include "ui/fields/provenance_mark.h"
#include "ui/fields/quantity_text.h"

#include <QWidget>

class QLabel;
class QLineEdit;

namespace bw {

class ProblemLabel;

/// A number with its unit in one line edit. Enter or leaving commits, Esc restores, up, down and page keys step (the wheel too, but
/// only in the focused field). A bad entry is said in a sentence below and changes nothing. The unrounded value is kept.
class QuantityField : public QWidget {
  Q_OBJECT
 public:
  struct Description {
    QString name;      // "Line spacing": accessible name, and subject of the sentence about a bad entry
    QString tip;       // one sentence that explains the term
    Quantity quantity;
    double low = 0;    // SI
    double high = 0;
    double step = 1;   // SI; the page keys go ten of them
    bool range = false;     // "45..80" is accepted
    bool unknown = false;   // "-" and "don't know" are accepted
    bool whole = false;     // whole numbers only
  };

  explicit QuantityField(Description description, QWidget* parent = nullptr);

  void setValue(double value) { setRange(Range::exact(value)); }
  void setRange(const Range& value);
  void setUnknown();
  /// What is half typed, or wrong and said to be, was about something else.
  void dropTyped();
  const std::optional<Range>& value() const { return m_value; }
  /// False leaves the unit to the field beside it.
  void showUnit(bool shown);
  void setLimits(double low, double high);
  /// Another word for the same number, where it means something else.
  void setName(const QString& name, const QString& tip);
  /// Shows the mark for where the value comes from, and lets it be chosen.
  void setProvenance(KnownFrom from);

  QLineEdit* edit() const { return m_edit; }
  QString problem() const;

 signals:
  void edited(bw::Range value, bw::EditKind kind);
  void unknownChosen();
  void provenanceChosen(bw::KnownFrom from);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void commit();
  void restore();
  void stepBy(double steps);
  bool handleKey(int key);
  void showValue();
  void placeUnit();
  QString outOfLimits(const Range& value) const;

  Description m_description;
  std::optional<Range> m_value;
  QString m_shown;  // the text that stands for m_value
  QLineEdit* m_edit;
  QLabel* m_unit;
  ProblemLabel* m_problem;
  ProvenanceMark* m_mark = nullptr;
};

}  // namespace bw
