// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/upkeep.h"
#include "ui/own/own_things.h"

#include <QWidget>

class QLabel;
class QPushButton;

namespace bw {

class MachineSketch;
class PowerPlot;
class UpkeepMark;

/// One machine of the shop, drawn: spot and frame to scale, power against repetition rate, what comes with it, and its upkeep.
class MachineCardView : public QWidget {
  Q_OBJECT
 public:
  explicit MachineCardView(QWidget* parent = nullptr);
  void setEntry(const LibraryEntry<MachineCard>& entry, const std::string& today, const UpkeepHabit& habit);
  const std::string& id() const { return m_id; }

 signals:
  void editWanted();
  void setUpWanted();
  void useWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::string m_id;
  QLabel* m_name;
  QLabel* m_origin;
  MachineSketch* m_sketch;
  PowerPlot* m_plot;
  UpkeepMark* m_upkeep;
  QLabel* m_facts;
  QPushButton* m_edit;
};

/// What a card tells in words, a line each; what is not known is said so.
QStringList factsOf(const MachineCard& card);

}  // namespace bw
