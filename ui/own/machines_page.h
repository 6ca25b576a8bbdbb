// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/upkeep.h"
#include "ui/own/own_things.h"

#include <QScrollArea>

class QVBoxLayout;

namespace bw {

class MachineCardView;
class QuantityField;

/// All machines of the shop as cards, and how often the shop looks at them.
class MachinesPage : public QScrollArea {
  Q_OBJECT
 public:
  explicit MachinesPage(QWidget* parent = nullptr);
  void setThings(const OwnedThings& things, const std::string& today);
  const UpkeepHabit& habit() const { return m_habit; }
  MachineCardView* card(const std::string& id) const;

 signals:
  void editWanted(const QString& id);
  void setUpWanted(const QString& id);
  void useWanted(const QString& id);
  void addWanted();

 private:
  QWidget* makeHabit();
  void refresh();

  std::vector<LibraryEntry<MachineCard>> m_machines;
  std::string m_today;
  UpkeepHabit m_habit;
  QuantityField* m_days;
  QuantityField* m_hours;
  QVBoxLayout* m_column;
  std::vector<MachineCardView*> m_cards;
};

}  // namespace bw
