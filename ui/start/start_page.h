// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/shop_stock.h"
#include "core/start/start_project.h"

#include <QWidget>

class QButtonGroup;
class QCheckBox;
class QLabel;
class QVBoxLayout;

namespace bw {

class Chooser;
class ColourList;
class QuantityField;

/// Three questions about one's own part, and what must not be hurt; "don't know" answers every one.
class StartPage : public QWidget {
  Q_OBJECT
 public:
  explicit StartPage(QWidget* parent = nullptr);

  /// Empty answers. The shop's machines are offered first, then those of the open project, then typical ones.
  void reset(const Project& open);
  /// What the shop has: its machines, and how a new project begins.
  void setStock(const ShopStock& stock);

 signals:
  void ready(const bw::Project& project);
  void cancelled();

 private:
  QWidget* makeMetal();
  QWidget* makeCoat();
  QWidget* makeMachine();
  QWidget* makeBehind();
  QWidget* makeButtons();
  void offerMetals();
  Magnet triedMagnet() const;
  void offerMachines();
  StartAnswers answers() const;
  struct Offered {
    QString text;
    Machine machine;
    std::optional<MachineOrigin> origin;  // of the shop's
  };
  std::vector<Offered> offered() const;
  void chooseMachine(StartAnswers& answers) const;
  Project project() const;

  QButtonGroup* m_magnet = nullptr;
  Chooser* m_metal = nullptr;
  QuantityField* m_thickness = nullptr;
  Chooser* m_coat = nullptr;
  ColourList* m_colours = nullptr;
  QuantityField* m_total = nullptr;
  ShopStock m_stock;
  Project m_open;
  std::vector<Offered> m_offered;
  QVBoxLayout* m_machineList = nullptr;
  QButtonGroup* m_machine = nullptr;
  QWidget* m_own = nullptr;
  Chooser* m_kind = nullptr;
  QuantityField* m_watts = nullptr;
  QuantityField* m_spot = nullptr;
  std::vector<std::pair<QCheckBox*, Behind>> m_behind;
  QCheckBox* m_zinc = nullptr;
};

}  // namespace bw
