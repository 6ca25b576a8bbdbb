// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/shop_stock.h"

#include <QWidget>

#include <optional>

namespace bw {

class ElidedLabel;

/// One line over the plan: a machine's card was changed after the project copied it. Says what differs; takes it over or keeps the copy.
class MachineUpdateBand : public QWidget {
  Q_OBJECT
 public:
  explicit MachineUpdateBand(QWidget* parent = nullptr);

  /// Nothing hides the band.
  void setUpdate(const std::optional<MachineUpdate>& update);
  bool hasUpdate() const { return m_update.has_value(); }

 signals:
  void taken(const bw::MachineUpdate& update);
  void declined(const bw::MachineUpdate& update);

 private:
  std::optional<MachineUpdate> m_update;
  ElidedLabel* m_text;
};

}  // namespace bw
