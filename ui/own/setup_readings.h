// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/measurements.h"
#include "ui/own/readings_model.h"

#include <QObject>

namespace bw {

/// The tables of the set-up sheet and what they say as measurements.
class SetupReadings : public QObject {
  Q_OBJECT
 public:
  enum Kind { Marks, Frame, Times, Powers, Rates, KindCount };

  explicit SetupReadings(QObject* parent = nullptr);

  ReadingsModel& table(Kind kind) { return *m_tables[static_cast<std::size_t>(kind)]; }
  static QString nameOf(Kind kind);
  static QString howTo(Kind kind);
  /// Good rows only; readings at one focus offset, or of one pulse duration, together.
  Measurements measurements() const;
  bool isEmpty() const;

 signals:
  void edited();

 private:
  void addMarks(Measurements& found) const;
  void addFrame(Measurements& found) const;
  void addTimes(Measurements& found) const;
  void addPowers(Measurements& found) const;
  void addRates(Measurements& found) const;
  Measured measured(const ReadingsModel& table, int row, int value, int uncertainty) const;

  std::array<ReadingsModel*, KindCount> m_tables;
};

}  // namespace bw
